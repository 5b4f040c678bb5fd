using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>
/// Gives the three acts as soon as each is possible, and answers what it is asked with the middle of the range or the first
/// choice. For rigs with nothing real behind them.
/// </summary>
/// <param name="procedure">What is run.</param>
public sealed class ScriptedOperator(Procedure procedure) : IOperator
{
    private bool _reset;
    private bool _armed;
    private bool _started;
    private (int Repeat, int Step) _asked = (-1, -1);

    public string Name => "scripted";

    /// <summary>Set by the first refusal: a script has nobody to mend what is wrong.</summary>
    public bool HasGivenUp { get; private set; }

    public void See(in ScanRecord record, CommandInbox inbox)
    {
        for (int i = 0; i < record.ReceiptCount; i++)
            HasGivenUp |= record.Receipts[i] is { Source: CommandSource.Bench, Refusal: not RefusalReason.None };
        if (record.AwaitsLook)
            Look(inbox);
        else if (!_reset && record is { State: RigState.SafeStop, AtStandstill: true })
            _reset = Give(CommandKind.Reset, inbox);
        else if (!_armed && record is { State: RigState.Idle, AtStandstill: true } && procedure.Steps[record.Step].Kind == StepKind.Arm)
            _armed = Give(CommandKind.Arm, inbox);
        else if (record is { State: RigState.Idle, Finished: false } && procedure.Steps[record.Step].Question is { } question)
            Answer(question, record, inbox);
        else if (!_started && record.Phase == ArmingPhase.AwaitingStart)
            _started = Give(CommandKind.Start, inbox);
    }

    // Behind a look it is armed and started anew.
    private void Look(CommandInbox inbox)
    {
        Give(CommandKind.Look, inbox);
        (_armed, _started) = (false, false);
    }

    // Once for each time that the step is come to.
    private void Answer(Question question, in ScanRecord record, CommandInbox inbox)
    {
        if (_asked == (record.Repeat, record.Step))
            return;
        _asked = (record.Repeat, record.Step);
        inbox.Post(CommandKind.Answer, CommandSource.Bench, question.IsChoice ? 0 : (question.Lowest + question.Highest) / 2);
    }

    private static bool Give(CommandKind kind, CommandInbox inbox) => inbox.Post(kind, CommandSource.Bench) > 0;
}

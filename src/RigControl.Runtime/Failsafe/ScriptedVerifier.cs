using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;
using RigControl.Runtime.Sessions;

namespace RigControl.Runtime.Failsafe;

/// <summary>Plays a verification on a simulated bench as a person would: does what each step asks for, undoes it, resets, arms and starts.</summary>
public sealed class ScriptedVerifier : IOperator
{
    private readonly AssembledRig _rig;
    private readonly TimeSpan _thought;
    private (int Step, RigState State, ArmingPhase Phase) _place = (-1, default, default);
    private TimeSpan _since;
    private bool _acted;
    private HandMove _undone;

    /// <param name="rig">Simulated throughout, assembled for a verification.</param>
    /// <param name="thought">Rig time after which a person has read what is shown and does the next thing; half a second where none is given.</param>
    /// <exception cref="ArgumentException">Something of the rig is real.</exception>
    public ScriptedVerifier(AssembledRig rig, TimeSpan? thought = null)
    {
        if (!rig.Simulated)
            throw new ArgumentException("a script lays hands on simulated rigs only");
        (_rig, _thought) = (rig, thought ?? TimeSpan.FromSeconds(0.5));
    }

    public string Name => "scripted";

    /// <summary>Set by the first refusal: a script has nobody to mend what is wrong.</summary>
    public bool HasGivenUp { get; private set; }

    public void See(in ScanRecord record, CommandInbox inbox)
    {
        for (int i = 0; i < record.ReceiptCount; i++)
            HasGivenUp |= record.Receipts[i] is { Source: CommandSource.Bench, Refusal: not RefusalReason.None };
        if (_place != (record.Step, record.State, record.Phase))
            Come(record);
        if (_acted || record.Now - _since < _thought)
            return;
        _acted = Act(record, _rig.Configuration.StepAt(record.Step), inbox);
    }

    private void Come(in ScanRecord record)
    {
        (_place, _since, _acted) = ((record.Step, record.State, record.Phase), record.Now, false);
        if (_undone == HandMove.LetGoLid)
            Move(HandMove.LetGoLid);
    }

    private bool Act(in ScanRecord record, CompiledStep step, CommandInbox inbox) => record switch
    {
        { AwaitsLook: true } => inbox.Post(CommandKind.Look, CommandSource.Bench) == 0,
        { State: RigState.SafeStop } => Reset(record, inbox),
        { State: RigState.Idle, Finished: true } => true,
        { State: RigState.Idle } when step.Kind == StepKind.Arm => record.AtStandstill && inbox.Post(CommandKind.Arm, CommandSource.Bench) > 0,
        { State: RigState.Idle } when step.Kind == StepKind.Ask => inbox.Post(CommandKind.Answer, CommandSource.Bench) > 0,
        { Phase: ArmingPhase.AwaitingStart } => inbox.Post(CommandKind.Start, CommandSource.Bench) > 0,
        { State: RigState.Idle or RigState.SpinUp or RigState.Hold } when step.Hand is { } hand => Move(hand.Act),
        _ => false,
    };

    private bool Reset(in ScanRecord record, CommandInbox inbox)
    {
        bool seen = record.Causes == TripCause.None || (record.Causes & TripCause.Provoked) != 0;
        if (!seen || record.Finished)
            return false;
        // What was done by hand is undone first, and the next thought is the reset.
        if (_undone != HandMove.None)
        {
            Move(_undone);
            (_undone, _since) = (HandMove.None, record.Now);
            return false;
        }

        return record.AtStandstill && inbox.Post(CommandKind.Reset, CommandSource.Bench) > 0;
    }

    private bool Move(HandMove move)
    {
        foreach (Devices.HostedDevice device in _rig.Devices)
            device.Hands?.Do(move);
        _undone = move switch
        {
            HandMove.OpenLid => HandMove.CloseLid,
            HandMove.PressStop => HandMove.ReleaseStop,
            HandMove.PullLid => HandMove.LetGoLid,
            _ => HandMove.None,
        };
        return true;
    }
}

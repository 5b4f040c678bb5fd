using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>Gives the three acts as soon as each is possible. For rigs with nothing real behind them.</summary>
public sealed class ScriptedOperator : IOperator
{
    private bool _reset;
    private bool _armed;
    private bool _started;

    public string Name => "scripted";

    /// <summary>Set by the first refusal: a script has nobody to mend what is wrong.</summary>
    public bool HasGivenUp { get; private set; }

    public void See(in ScanRecord record, CommandInbox inbox)
    {
        for (int i = 0; i < record.ReceiptCount; i++)
            HasGivenUp |= record.Receipts[i] is { Source: CommandSource.Bench, Refusal: not RefusalReason.None };
        if (!_reset && record is { State: RigState.SafeStop, AtStandstill: true })
            _reset = Give(CommandKind.Reset, inbox);
        else if (!_armed && record is { State: RigState.Idle, AtStandstill: true })
            _armed = Give(CommandKind.Arm, inbox);
        else if (!_started && record.Phase == ArmingPhase.AwaitingStart)
            _started = Give(CommandKind.Start, inbox);
    }

    private static bool Give(CommandKind kind, CommandInbox inbox) => inbox.Post(kind, CommandSource.Bench) > 0;
}

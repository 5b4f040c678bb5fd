namespace RigControl.Kernel.Tests.Exploration;

/// <summary>What must hold of everything that the kernel says, whoever listens.</summary>
internal static class KernelRules
{
    public static Dictionary<string, Rules.Rule> All { get; } = new()
    {
        ["nothing is driven while an interlock stops, but for the pulse without power whose stop is provoked"] = (in Seen s) =>
            !s.Drives || (!s.Move.Cuts && (!s.Move.Stops || s.IsExpectedPulse)),
        ["nothing is powered while an interlock cuts"] = (in Seen s) => !s.Out.Power || !s.Move.Cuts,
        ["nothing is driven or powered without the proof, but in a verification"] = (in Seen s) =>
            s.Verifies || s.Move.Proven || (!s.Drives && (!s.Out.Power || s.Record.State == RigState.SafeStop)),
        ["outputs live only in the states that are there for them"] = (in Seen s) =>
            (!s.Drives || s.Record.State is RigState.SpinUp or RigState.Hold) && (!s.Out.Power || s.Record.State != RigState.Idle),
        ["a stop ends in safe-stop with everything off"] = (in Seen s) =>
            s.Move.Command is not { Kind: CommandKind.Stop } || (s.Record.State == RigState.SafeStop && !s.Drives && !s.Out.Power),
        ["a clock that goes back ends in safe-stop with the output at stop"] = (in Seen s) =>
            s.Move.Pace != Pace.Backwards || (s.Record.State == RigState.SafeStop && !s.Drives),
        ["a leap of the clock stops what is energised"] = (in Seen s) =>
            s.Move.Pace != Pace.Leap || s.Before.State is RigState.SafeStop or RigState.Idle || s.Record.State == RigState.SafeStop,
        ["safe-stop is left only by the bench's reset at standstill, and leads to idle"] = (in Seen s) =>
            s.Before.State != RigState.SafeStop || s.Record.State == RigState.SafeStop
            || (s.Record is { State: RigState.Idle, AtStandstill: true } && s.Move.Command == (CommandKind.Reset, CommandSource.Bench)),
        ["the rig is armed only by the bench, or by a repeat whose start still holds"] = (in Seen s) =>
            s.Record.State != RigState.Arming || s.Before.State == RigState.Arming
            || s.Move.Command == (CommandKind.Arm, CommandSource.Bench) || ((s.Before.Flags & StateFlags.Started) != 0 && s.Move.Shut),
        ["output rises from stop only after the whole warning"] = (in Seen s) =>
            !s.Drives || s.Before.State is RigState.SpinUp or RigState.Hold
            || (s.Before.Phase == ArmingPhase.Warning && s.Before.Now + s.Move.After - s.Before.PhaseSince >= Configuration.WarningTime),
        ["nobody starts from the network"] = (in Seen s) =>
            s.Move.Command != (CommandKind.Start, CommandSource.Network) || s.Before.Phase == ArmingPhase.Warning || s.Record.Phase != ArmingPhase.Warning || s.Before.State == RigState.Hold || s.Before.State == RigState.Arming && (s.Before.Flags & StateFlags.Started) != 0,
        ["a lock is open only in idle, at standstill, without power"] = (in Seen s) =>
            !s.Out.Unlocked || (s.Record is { State: RigState.Idle, AtStandstill: true } && !s.Out.Power && !s.Drives),
        ["standstill is never proven by a speed that turns, nor without a look by one that cannot be read"] = (in Seen s) =>
            !s.Record.AtStandstill || s.Move.Speed == 0 || (s.Move.Speed is null && (s.Before.Flags & StateFlags.Looked) != 0),
        ["what was driven and never seen to turn, or was lost sight of, stands only once somebody has looked"] = (in Seen s) =>
            !s.Record.AtStandstill || (s.Before.Flags & (StateFlags.OutOfSight | StateFlags.Driven)) != StateFlags.OutOfSight || (s.Before.Flags & StateFlags.Looked) != 0,
        ["the gate opens only on a stick at stop, and is shut in the scan that loses the receiver"] = (in Seen s) =>
            !s.Out.Gate || (s.Move.Stick is not null && (s.Before.State == RigState.SpinUp || s.Move.Stick == Move.AtStop)),
        ["a gate that is tried without power has none, and any other has it"] = (in Seen s) =>
            !s.Out.Gate || s.Out.Power != s.Configuration.StepAt(s.Record.Step).Unpowered,
        ["a look counts only with everything off and nothing seen to turn"] = (in Seen s) =>
            s.Move.Command != (CommandKind.Look, CommandSource.Bench) || s.Record.Receipts[0].Refusal != RefusalReason.None
            || (s.Move.Speed is null or 0 && !s.Out.Power && !s.Drives && s.Before.Now + s.Move.After - s.Before.LastEnergised >= s.Configuration.LongestCoastDown),
        ["power in safe-stop ends with the stopping time"] = (in Seen s) =>
            s.Record.State != RigState.SafeStop || !s.Out.Power || (!s.Verifies && (s.Before.State != RigState.SafeStop || s.Before.Now + s.Move.After - s.Before.StateSince < s.Configuration.StoppingTime || s.Move.Pace == Pace.Backwards)),
        ["every command has one receipt"] = (in Seen s) => s.Record.ReceiptCount == (s.Move.Command is null ? 0 : 1),
        ["a verification never exceeds its throttle, and cuts the power above its speed or without one"] = (in Seen s) =>
            !s.Verifies || (Math.Abs(s.Out.Throttle) <= s.Configuration.Ceiling!.Throttle && (!s.Out.Power || s.Move.Speed is { } speed && speed <= s.Configuration.Ceiling.Speed)),
        ["a stick above a verification's throttle does not drive"] = (in Seen s) => !s.Verifies || !s.Out.Gate || s.Move.Stick <= Move.AtCeiling,
        ["of a radio lost on purpose nothing counts but what followed the receiver's silence alone"] = (in Seen s) =>
            (s.Record.NewCauses & TripCause.Provoked) == 0 || s.Configuration.StepAt(s.Record.Step).Provocation!.Manner != ProvocationManner.ThroughGate
            || (s.Before.Causes == TripCause.Receiver && s.Record.Latched == 0),
        ["a verification goes on only behind what was provoked and seen"] = (in Seen s) =>
            !s.Verifies || s.Record.Step == s.Before.Step || s.Before.State != RigState.SafeStop || s.Before.Causes is TripCause.Provoked or (TripCause.Provoked | TripCause.Receiver)
            || s.Before is { Causes: TripCause.None, Step: 0 },
        ["silence on purpose says stop and no power"] = (in Seen s) => !s.Out.Silent || (!s.Drives && !s.Out.Power),
        ["pulses without power are live only in a verification"] = (in Seen s) => !s.Drives || s.Out.Power || s.Verifies,
    };
}

namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>What must hold of the operator's acts.</summary>
internal static class Acts
{
    /// <summary>Driven only after an accepted reset, then in a later scan an arm, then in a later scan a start, all since the last safe-stop.</summary>
    public static int? InOrder(RandomRig rig, IReadOnlyList<Moment> run)
    {
        int acts = 0;
        return Invariants.First(run, i =>
        {
            if (run[i].State == RigState.SafeStop)
                acts = 0;
            else if (acts == 0 && run[i].Accepted(CommandKind.Reset))
                acts = 1;
            else if (acts == 1 && run[i].Accepted(CommandKind.Arm))
                acts = 2;
            else if (acts == 2 && run[i].Accepted(CommandKind.Start))
                acts = 3;
            return Invariants.Drives(rig, run[i]) && acts < 3;
        });
    }

    public static int? LeftByReset(RandomRig rig, IReadOnlyList<Moment> run) => Invariants.First(run, i =>
        run[i].Before == RigState.SafeStop && run[i].State != RigState.SafeStop
        && (run[i].State != RigState.Idle || !run[i].Accepted(CommandKind.Reset) || !Standing.At(rig, run, i) || Stands(rig, run, i)));

    /// <summary>Armed without an arm: then since the start the lid read shut in every scan and its release was never asked for.</summary>
    public static int? RepeatsStayedShut(RandomRig rig, IReadOnlyList<Moment> run)
    {
        bool shut = false, started = false;
        return Invariants.First(run, i =>
        {
            bool repeats = run[i].Before == RigState.Idle && run[i].State == RigState.Arming && !run[i].Accepted(CommandKind.Arm);
            bool breaks = repeats && !(started && shut && run[i].Shut && Standing.At(rig, run, i));
            shut &= run[i].Shut && !run[i].Outputs.Unlocked;
            if (run[i].Accepted(CommandKind.Start))
                (started, shut) = (true, true);
            started &= run[i].State != RigState.SafeStop;
            return breaks;
        });
    }

    // A latch of the scan before that needs a restart or whose interlock still stops.
    private static bool Stands(RandomRig rig, IReadOnlyList<Moment> run, int place) => Enumerable.Range(0, rig.Interlocks.Length).Any(i =>
        place > 0 && (run[place - 1].Latched & (1u << i)) != 0
        && (rig.Resets[i] == ResetPolicy.Restart || run[place].Asked[i] <= DemandAction.StopOutput));
}

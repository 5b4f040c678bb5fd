namespace RigControl.Kernel.Tests.Exploration;

/// <summary>
/// Makes states that differ only in what the kernel cannot tell apart the same: times count from now, and those longer than any time of the
/// world are all the same. Of the long waits (the warning, the wait for the start) the first two scans and the last two are visited; between
/// them the kernel only compares the time with the end.
/// </summary>
internal static class Canonical
{
    private static readonly TimeSpan Now = TimeSpan.FromHours(1);
    private static readonly TimeSpan Longest = World.Period * 9;
    private static readonly TimeSpan Begun = World.Period * 2;

    /// <summary>The state, and the other end of a long wait where it stands in one.</summary>
    public static (KernelState Here, KernelState? AtEnd) Of(in KernelState raw)
    {
        KernelState state = raw;
        TimeSpan now = raw.Now;
        state.Now = Now;
        state.Scan = 2;
        state.LateScans = Math.Min(state.LateScans, 4);
        state.StateSince = Clamp(now, raw.StateSince, Longest);
        state.StepSince = Clamp(now, raw.StepSince, Longest);
        state.SlowSince = (raw.Flags & StateFlags.Slow) != 0 ? Clamp(now, raw.SlowSince, Longest) : default;
        state.LastEnergised = Clamp(now, raw.LastEnergised, Longest);
        state.PhaseSince = raw.Phase == ArmingPhase.None && (raw.Flags & StateFlags.Provoking) == 0 ? default : Now - (now - raw.PhaseSince);
        state.MarkUntil = default;
        for (int i = 0; i < Capacity.Conditions; i++)
            state.Conditions[i].Since = state.Conditions[i].Holds ? Clamp(now, raw.Conditions[i].Since, Longest) : default;
        return Shorten(state);
    }

    private static (KernelState, KernelState?) Shorten(in KernelState state)
    {
        TimeSpan end = state.Phase switch
        {
            ArmingPhase.Warning => Configuration.WarningTime,
            ArmingPhase.AwaitingStart => Configuration.StartDeadline,
            _ => TimeSpan.MaxValue,
        };
        TimeSpan waited = Now - state.PhaseSince;
        if (end == TimeSpan.MaxValue || waited < Begun || waited >= end - World.Period * 2)
            return (state, null);
        KernelState here = state, atEnd = state;
        here.PhaseSince = Now - Begun;
        atEnd.PhaseSince = Now - (end - World.Period * 2);
        return (here, atEnd);
    }

    private static TimeSpan Clamp(TimeSpan now, TimeSpan since, TimeSpan longest) => Now - (now - since < longest ? now - since : longest);
}

namespace RigControl.Kernel.Tests.Exploration;

/// <summary>
/// Makes states that differ only in what the kernel cannot tell apart the same. Times count from now and end at the longest that the kernel
/// compares them with; what a state of the rig does not read is cleared; of the long waits (the warning, the wait for the start) the first two
/// scans and the last two are visited, since between them the kernel only compares the time with the end. That states made the same
/// do behave the same is a test of its own.
/// </summary>
internal static class Canonical
{
    private static readonly TimeSpan Now = TimeSpan.FromHours(1);
    private static readonly TimeSpan Begun = World.Period * 2;

    /// <summary>Makes a state the one that stands for it.</summary>
    /// <returns>When the phase began if the state stood at the other end of its long wait; null where it is in none.</returns>
    public static TimeSpan? Make(Configuration configuration, ref KernelState state)
    {
        Merge(configuration, ref state);
        TimeSpan end = state.Phase switch
        {
            ArmingPhase.Warning => Configuration.WarningTime,
            ArmingPhase.AwaitingStart => Configuration.StartDeadline,
            _ => TimeSpan.MaxValue,
        };
        TimeSpan waited = Now - state.PhaseSince;
        if (end == TimeSpan.MaxValue || waited < Begun || waited >= end - World.Period * 2)
            return null;
        state.PhaseSince = Now - Begun;
        return Now - (end - World.Period * 2);
    }

    /// <summary>Takes away what the kernel cannot tell apart, and leaves the long waits as long as they are.</summary>
    public static void Merge(Configuration configuration, ref KernelState state)
    {
        TimeSpan now = state.Now;
        CompiledStep step = configuration.Steps[state.Step];
        bool isLive = state.State is RigState.SpinUp or RigState.Hold or RigState.CoastDown;
        state.Scan = 2;
        state.LateScans = Math.Min(state.LateScans, Configuration.LateScansAllowed);
        state.StateSince = Clamp(now, state.StateSince, LongestInState(configuration, state));
        state.StepSince = Clamp(now, state.StepSince, LongestInStep(configuration, state, step));
        state.SlowSince = Clamp(now, state.SlowSince, (state.Flags & StateFlags.Slow) != 0 ? configuration.StandstillTime : TimeSpan.Zero);
        state.LastEnergised = Clamp(now, state.LastEnergised, configuration.StandstillTime);
        state.PowerSeen = Clamp(now, state.PowerSeen, configuration.LongestCoastDown);
        state.TurningAt = state.TurningAt <= configuration.StandstillSpeed * Standstill.MostAboveLimit ? 0 : double.MaxValue;
        state.PhaseSince = Clamp(now, state.PhaseSince, LongestInPhase(configuration, state, step));
        state.Now = Now;
        state.MarkUntil = default;
        state.RampFrom = isLive ? state.RampFrom : 0;
        // Nothing in these worlds has to hold for a time, so that what held before says nothing.
        state.Conditions = default;
        // Found anew in every scan before anybody reads it.
        state.Flags &= ~(StateFlags.AtStandstill | StateFlags.Turning);
        for (int i = 0; i < configuration.InterlockCount; i++)
            state.Interlocks[i].Current = default;
    }

    private static TimeSpan LongestInState(Configuration configuration, in KernelState state) => state switch
    {
        { State: RigState.Arming, Phase: ArmingPhase.Preparing } => configuration.ArmingTime,
        { State: RigState.SafeStop } when (state.Flags & StateFlags.StoppingUnderPower) != 0 => configuration.StoppingTime,
        _ => TimeSpan.Zero,
    };

    private static TimeSpan LongestInStep(Configuration configuration, in KernelState state, CompiledStep step) => state.State switch
    {
        RigState.SafeStop => TimeSpan.Zero,
        RigState.Idle => configuration.LongestCoastDown + step.Timeout + World.Period,
        RigState.Arming when state.Phase != ArmingPhase.Preparing => TimeSpan.Zero,
        _ => step.Timeout + World.Period,
    };

    private static TimeSpan LongestInPhase(Configuration configuration, in KernelState state, CompiledStep step) => state.Phase switch
    {
        ArmingPhase.Warning or ArmingPhase.AwaitingStart => TimeSpan.MaxValue,
        _ when IsAwaited(configuration, state) => step.Provocation!.Allowed + World.Period,
        _ => TimeSpan.Zero,
    };

    // Evidence that has come, or that nobody waits for any more, has no time.
    private static bool IsAwaited(Configuration configuration, in KernelState state) =>
        Provoking.IsOn(state) && (state.Causes & TripCause.Provoked) == 0 && !Provoking.HasFailed(configuration, state);

    // A clock that went back leaves times ahead of now; where the time is not read, that says nothing either.
    private static TimeSpan Clamp(TimeSpan now, TimeSpan since, TimeSpan longest) =>
        longest == TimeSpan.Zero ? Now : Now - (now - since < longest ? now - since : longest);
}

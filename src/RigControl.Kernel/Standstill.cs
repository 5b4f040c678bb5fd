using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>
/// Whether the rotor is proven to stand still. A tachometer that gives no pulses proves nothing: a lead that came off reads as a rotor
/// that stands. So a low reading counts only where the reading was followed down to it. Else the longest credible coast-down has to
/// pass since the power was seen gone, and somebody has to look; where nothing is mounted that stores energy, the time is enough.
/// </summary>
internal static class Standstill
{
    /// <summary>
    /// The last reading of a rotor that turned may lie this many times above the limit: one that runs down comes by there, even with
    /// one mark and a few readings lost, and one that is lost sight of at speed does not.
    /// </summary>
    public const double MostAboveLimit = 4;

    public static void Follow(Configuration configuration, ref KernelState state, in InputImage image)
    {
        FollowPower(configuration, ref state, image);
        if (configuration.RestChannel >= 0 && !state.Has(StateFlags.EverEnergised | StateFlags.Looked))
            FollowBefore(ref state, image[configuration.RestChannel]);
        if (configuration.SpeedChannel >= 0)
            FollowSpeed(configuration, ref state, image[configuration.SpeedChannel]);
        bool proven = IsProven(configuration, state);
        state.Set(StateFlags.AtStandstill, proven);
        if (proven && IsAtRest(state) && !state.Has(StateFlags.StoppingUnderPower))
            (state.Flags, state.TurningAt) = (state.Flags & ~(StateFlags.MayTurn | StateFlags.OutOfSight), 0);
    }

    /// <summary>Notes, after the outputs are known, what was energised: from then on nobody has looked.</summary>
    public static void Note(ref KernelState state, in OutputImage outputs)
    {
        bool driven = outputs.Power && outputs.Drives;
        state.Set(StateFlags.Driven, driven);
        if (driven)
            state.Set(StateFlags.OutOfSight, true);
        if (!outputs.Power && !outputs.Drives)
            return;
        (state.LastEnergised, state.PowerSeen) = (state.Now, state.Now);
        state.Flags = (state.Flags | StateFlags.MayTurn | StateFlags.EverEnergised) & ~StateFlags.Looked;
    }

    /// <summary>
    /// Notes, before the state is left, that the rig stops. Under power that nothing was to drive yet, no pulse was due that would show
    /// that the tachometer works, and a controller that drives by itself may be why somebody or something stopped it: whether it stands is for a person to see.
    /// </summary>
    public static void NoteStop(ref KernelState state)
    {
        if (state.State == RigState.Arming && state.Has(StateFlags.MayTurn))
            state.Set(StateFlags.OutOfSight, true);
    }

    /// <summary>Whether only somebody's look is missing: nothing was energised for the longest credible coast-down, and nothing is seen to turn.</summary>
    public static bool AwaitsLook(Configuration configuration, in KernelState state) =>
        IsAtRest(state) && !state.Has(StateFlags.AtStandstill | StateFlags.Turning | StateFlags.Looked) && HasRunDown(configuration, state);

    /// <summary>Whether it stands and its speed can be read, where the rig reads one: who looked may open the lid, and cannot see what turns next.</summary>
    public static bool MayArm(Configuration configuration, in KernelState state) =>
        state.Has(StateFlags.AtStandstill) && (configuration.SpeedChannel < 0 || state.Has(StateFlags.Slow));

    private static void FollowPower(Configuration configuration, ref KernelState state, in InputImage image)
    {
        if (configuration.PowerChannel < 0)
            return;
        ref readonly ImageEntry power = ref image[configuration.PowerChannel];
        if (!power.IsUsable || power.Minimum != 0 || power.Maximum != 0)
            state.PowerSeen = state.Now;
    }

    // Until this session energises anything or somebody looks, the rotor is as the one before left it: a host that was killed over a
    // turning rotor comes back to a tachometer that may have lost its mark in between.
    private static void FollowBefore(ref KernelState state, in ImageEntry leftAtRest) =>
        state.Set(StateFlags.OutOfSight, !leftAtRest.IsUsable || leftAtRest.Minimum != 1);

    private static void FollowSpeed(Configuration configuration, ref KernelState state, in ImageEntry speed)
    {
        bool slow = speed.IsUsable && speed.Maximum < configuration.StandstillSpeed && speed.Minimum > -configuration.StandstillSpeed;
        bool turns = speed.IsUsable && !slow;
        if (slow && !state.Has(StateFlags.Slow))
            state.SlowSince = state.Now;
        state.Set(StateFlags.Slow, slow);
        state.Set(StateFlags.Turning, turns);
        // What turns after somebody looked is not what they saw.
        if (turns)
            (state.TurningAt, state.Flags) = (Math.Abs(speed.Last), state.Flags & ~StateFlags.Looked);
        // Only what it does while it is driven tells that the tachometer works; a lead that flaps gives pulses too.
        if (Math.Abs(speed.Last) >= configuration.StandstillSpeed && turns && state.Has(StateFlags.Driven))
            state.Set(StateFlags.OutOfSight, false);
        if (slow && state.Has(StateFlags.MayTurn) && !(state.TurningAt <= configuration.StandstillSpeed * MostAboveLimit))
            state.Set(StateFlags.OutOfSight, true);
    }

    // A usable speed below the limit for the time asked, in which nothing was energised: a tachometer with one mark says nothing
    // of the first revolution, so that what was driven for a moment may turn although it reads as standing.
    private static bool IsProven(Configuration configuration, in KernelState state)
    {
        if (state.Has(StateFlags.Turning))
            return false;
        if (state.Has(StateFlags.Looked))
            return true;
        bool reads = configuration.SpeedChannel >= 0;
        TimeSpan since = state.SlowSince > state.LastEnergised ? state.SlowSince : state.LastEnergised;
        bool isSlow = state.Has(StateFlags.Slow) && state.Now - since >= configuration.StandstillTime;
        if (reads && !state.Has(StateFlags.OutOfSight))
            return isSlow;
        return !configuration.HasRotor && (isSlow || !reads) && HasRunDown(configuration, state);
    }

    // At start-up the time begins with the first scan, since nobody knows what was before.
    private static bool HasRunDown(Configuration configuration, in KernelState state) =>
        state.Now - state.PowerSeen >= configuration.LongestCoastDown;

    private static bool IsAtRest(in KernelState state) => state.State is RigState.Idle or RigState.SafeStop;
}

using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Whether the rotor is proven to stand still.</summary>
internal static class Standstill
{
    /// <summary>
    /// A usable speed below the limit for the time asked, in which nothing was energised: a tachometer with one mark says nothing
    /// of the first revolution, so that what was driven for a moment may turn although it reads as standing. Where no speed can be read, the longest credible coast-down
    /// since anything was last energised; at start-up that time begins with the first scan, since nobody knows what was before.
    /// </summary>
    public static void Follow(Configuration configuration, ref KernelState state, in InputImage image)
    {
        bool proven = configuration.SpeedChannel >= 0
            ? BySpeed(configuration, ref state, image[configuration.SpeedChannel])
            : state.Now - state.LastEnergised >= configuration.LongestCoastDown;
        Set(ref state, StateFlags.AtStandstill, proven);
        if (proven && state.State is RigState.Idle or RigState.SafeStop && (state.Flags & StateFlags.StoppingUnderPower) == 0)
            state.Flags &= ~StateFlags.MayTurn;
    }

    private static bool BySpeed(Configuration configuration, ref KernelState state, in ImageEntry speed)
    {
        bool slow = speed.IsUsable && speed.Maximum < configuration.StandstillSpeed && speed.Minimum > -configuration.StandstillSpeed;
        if (slow && (state.Flags & StateFlags.Slow) == 0)
            state.SlowSince = state.Now;
        Set(ref state, StateFlags.Slow, slow);
        TimeSpan since = state.SlowSince > state.LastEnergised ? state.SlowSince : state.LastEnergised;
        return slow && state.Now - since >= configuration.StandstillTime;
    }

    private static void Set(ref KernelState state, StateFlags flag, bool on)
    {
        state.Flags = on ? state.Flags | flag : state.Flags & ~flag;
    }
}

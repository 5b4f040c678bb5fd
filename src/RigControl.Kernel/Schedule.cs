using RigControl.Model.Records;

namespace RigControl.Kernel;

/// <summary>Whether the scans come when they should.</summary>
internal static class Schedule
{
    /// <summary>Moves the state's time on. Late scans and a leap trip what is energised, a clock that goes back trips always.</summary>
    public static void Follow(Configuration configuration, ref KernelState state, TimeSpan now, ref ScanRecord record)
    {
        TimeSpan gap = now - state.Now;
        state.Now = now;
        state.LateScans = gap > configuration.LateAfter ? state.LateScans + 1 : 0;
        bool lostSight = gap <= TimeSpan.Zero || gap > configuration.LongestGap;
        if (lostSight)
            Discount(ref state, gap);
        if (gap <= TimeSpan.Zero)
            Sequence.Trip(ref state, TripCause.ClockStep, ref record);
        else if (lostSight || state.LateScans >= Configuration.LateScansAllowed)
            Sequence.TripIfEnergised(ref state, TripCause.LateScans, ref record);
    }

    // Time in which nobody looked proves nothing: a clock that leaps must not bring a rotor to a stand.
    private static void Discount(ref KernelState state, TimeSpan gap)
    {
        state.SlowSince += gap;
        state.LastEnergised += gap;
        state.PowerSeen += gap;
    }
}

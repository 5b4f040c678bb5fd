using RigControl.Physics;

namespace RigControl.Devices.SimulatedRig;

/// <summary>What happens to the bench at stated times of a run, as the rig file's options say. Once begun it lasts.</summary>
internal sealed class Timetable(SimulatedRigOptions options)
{
    public void Follow(TimeSpan now, ref BenchFaults faults)
    {
        faults.LidForced |= IsDue(options.LidForcedAt, now);
        faults.StopPressed |= IsDue(options.StopPressedAt, now);
        faults.RadioLost |= IsDue(options.RadioLostAt, now);
        if (IsDue(options.TachometerSilentAt, now))
            faults.Tachometer = TachometerFault.Silent;
        FollowDrive(now, ref faults);
    }

    /// <summary>Whether the receiver has begun to hold its last pulse when its radio is lost.</summary>
    public bool ReceiverHolds(TimeSpan now) => IsDue(options.ReceiverHoldsAt, now);

    /// <summary>Whether the gate has stuck open.</summary>
    public bool GateSticks(TimeSpan now) => IsDue(options.GateStuckAt, now);

    // What can go wrong between the output and the motor: each is a reason for one of the two ways to stop.
    private void FollowDrive(TimeSpan now, ref BenchFaults faults)
    {
        faults.ContactorWelded |= IsDue(options.ContactorWeldedAt, now);
        faults.ControllerShorted |= IsDue(options.ControllerShortedAt, now);
        faults.ControllerRunaway |= IsDue(options.ControllerRunsAwayAt, now);
        if (IsDue(options.PulseStuckAt, now))
            faults.StuckPulse = options.StuckPulse;
    }

    private static bool IsDue(double at, TimeSpan now) => at > 0 && now.TotalSeconds >= at;
}

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
    }

    private static bool IsDue(double at, TimeSpan now) => at > 0 && now.TotalSeconds >= at;
}

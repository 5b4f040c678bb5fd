using RigControl.Physics;

namespace RigControl.Devices.SimulatedRig;

/// <summary>A controller whose range is another than the one declared, to be found out.</summary>
internal static class RealController
{
    // What lies beyond its end it takes for the end.
    private const double AnyPulse = 2500;

    public static SpeedController Of(SpeedController declared, SimulatedRigOptions options)
    {
        SpeedController really = options.RangeBeginsAt == 0 ? declared : declared with { Deadband = Math.Abs(options.RangeBeginsAt - declared.StopPulse) };
        if (options.RangeEndsAt == 0)
            return really;
        return declared.Reversed
            ? really with { MinimumPulse = options.RangeEndsAt, Tolerance = AnyPulse }
            : really with { MaximumPulse = options.RangeEndsAt, Tolerance = AnyPulse };
    }
}

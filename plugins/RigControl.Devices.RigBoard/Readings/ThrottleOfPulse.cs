using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Readings;

/// <summary>The throttle that a pulse stands for, by the article's profile.</summary>
internal sealed class ThrottleOfPulse(ControllerProfile controller)
{
    /// <summary>How far the board's read-back may be off a pulse that is right, us (stated in its line protocol).</summary>
    public const int ReadBackError = 10;

    private readonly double _forward = controller.PulseFor(1) - controller.StopPulse;
    private readonly double _reverse = controller.PulseFor(-1) - controller.StopPulse;

    /// <summary>%, 0 where no pulse is seen. A read-back within its error counts as the pulse demanded, so that stop reads as exactly 0.</summary>
    public double Percent(ushort demanded, ushort measured)
    {
        if (measured == 0)
            return 0;
        double pulse = Math.Abs(measured - demanded) <= ReadBackError ? demanded : measured;
        double away = pulse - controller.StopPulse;
        double share = away == 0 ? 0 : SameSide(away, _forward) || _reverse == 0 ? away / _forward : -away / _reverse;
        return Math.Clamp(share * 100, -120, 120);
    }

    private static bool SameSide(double a, double b) => a > 0 == b > 0;
}

using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Tests.Readings;

/// <summary>
/// What a host makes of the readings, from SAF-086: below the limit for a second, and the last reading above it at most four times as high.
/// </summary>
internal sealed class Follower(double limit)
{
    private const double Time = 1;
    private double _turningAt;
    private double? _slowSince;
    private bool _outOfSight;

    public bool Stands { get; private set; }

    public void See(double t, double value, Quality quality)
    {
        bool slow = quality != Quality.Bad && value < limit;
        if (quality != Quality.Bad && !slow)
            _turningAt = value;
        _outOfSight |= slow && _turningAt > 4 * limit;
        _slowSince = slow ? _slowSince ?? t : null;
        Stands = slow && !_outOfSight && t - _slowSince >= Time;
    }
}

namespace RigControl.Physics;

/// <summary>
/// All that resists rotation, quick to evaluate: drag exactly, windage from a table with straight lines between its points.
/// Beyond the table its last line goes on.
/// </summary>
public sealed class DragCurve
{
    private const int Intervals = 512;

    private readonly Drag _drag;
    private readonly double[] _windage = new double[Intervals + 1];
    private readonly double _perInterval;

    /// <summary>Makes the table from rest to <paramref name="maximumSpeed"/> in rad/s, above 0.</summary>
    public DragCurve(Drag drag, Air air, double discRadius, double windageShare, double maximumSpeed)
    {
        _drag = drag;
        _perInterval = Intervals / maximumSpeed;
        for (int i = 0; i <= Intervals; i++)
            _windage[i] = windageShare * Windage.Torque(air, discRadius, i / _perInterval);
    }

    /// <summary>N.m that the rotor withstands at rest.</summary>
    public double Holding => _drag.Holding;

    /// <summary>Torque in N.m and its change with speed in N.m.s, at a speed in rad/s, zero or above.</summary>
    public double Torque(double speed, out double slope)
    {
        double position = speed * _perInterval;
        int index = (int)Math.Min(position, Intervals - 1);
        double low = _windage[index];
        double rise = _windage[index + 1] - low;
        slope = _drag.Slope(speed) + rise * _perInterval;
        return _drag.Torque(speed) + low + rise * (position - index);
    }
}

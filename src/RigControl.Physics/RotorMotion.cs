namespace RigControl.Physics;

/// <summary>
/// The equation of motion I dw/dt = drive − drag, advanced by the linearly implicit midpoint rule:
/// second order, one evaluation a step, stable for any step (Rosenbrock method with coefficient ½).
/// </summary>
public sealed class RotorMotion(double inertia, DragCurve drag)
{
    private readonly double _perInertia = 1 / inertia;

    public DragCurve Drag => drag;

    /// <summary>Speed after a step, rad/s. Friction brings the rotor to rest but never turns it the other way.</summary>
    /// <param name="speed">Now, rad/s.</param>
    /// <param name="torque">Driving torque now, N.m.</param>
    /// <param name="torqueSlope">Its change with speed, N.m.s, zero or below.</param>
    /// <param name="friction">Dry friction on top of the drag, N.m: a jam.</param>
    /// <param name="dt">s.</param>
    public double Advance(double speed, double torque, double torqueSlope, double friction, double dt)
    {
        if (speed == 0 && Math.Abs(torque) <= drag.Holding + friction)
            return 0;
        bool backwards = speed < 0 || (speed == 0 && torque < 0);
        double sign = backwards ? -1 : 1;
        double magnitude = sign * speed;
        double resisting = drag.Torque(magnitude, out double resistingSlope) + friction;
        double acceleration = (sign * torque - resisting) * _perInertia;
        double slope = (torqueSlope - resistingSlope) * _perInertia;
        double next = magnitude + dt * acceleration / (1 - 0.5 * dt * slope);
        return next > 0 ? sign * next : 0;
    }
}

namespace RigControl.Physics;

/// <summary>
/// A rotor left to itself: dw/dt = −(a + b w + c w²), in closed form, one for all signs of the discriminant b² − 4ac
/// (a Riccati equation with constant coefficients; standard integral, Gradshteyn and Ryzhik 2.172, from memory).
/// </summary>
/// <param name="Initial">Speed at time 0, rad/s.</param>
/// <param name="Constant">a, rad/s2: c0 over the inertia.</param>
/// <param name="Linear">b, 1/s: c1 over the inertia.</param>
/// <param name="Quadratic">c, 1/rad: c2 over the inertia.</param>
public readonly record struct CoastDown(double Initial, double Constant, double Linear, double Quadratic)
{
    private double Discriminant => Linear * Linear - 4 * Constant * Quadratic;

    /// <summary>rad/s at a time in s from 0 on; 0 once it stands.</summary>
    public double Speed(double time)
    {
        double s = 0.5 * Math.Sqrt(Math.Abs(Discriminant));
        double x = s * time;
        // The ratio of sine to cosine, over s; where the angle passes a right one the rotor stands long since.
        double t = x < 1e-6 ? time : Discriminant > 0 ? Math.Tanh(x) / s : x < Math.PI / 2 ? Math.Tan(x) / s : double.PositiveInfinity;
        double above = Initial - (0.5 * Linear * Initial + Constant) * t;
        double below = 1 + (0.5 * Linear + Quadratic * Initial) * t;
        return above > 0 ? above / below : 0;
    }

    /// <summary>Time in s to fall to a speed in rad/s from 0 to <see cref="Initial"/>; infinity where it never does.</summary>
    public double TimeTo(double speed)
    {
        double t = (Initial - speed) / (Constant + 0.5 * Linear * (Initial + speed) + Quadratic * Initial * speed);
        double s = 0.5 * Math.Sqrt(Math.Abs(Discriminant));
        double x = s * t;
        if (t < 0)
            return double.PositiveInfinity;
        if (x < 1e-6)
            return t;
        return Discriminant < 0 ? Math.Atan(x) / s : x < 1 ? Math.Atanh(x) / s : double.PositiveInfinity;
    }

    /// <summary>rad/s2 of slowing at a speed in rad/s.</summary>
    public double Slowing(double speed) => Constant + speed * (Linear + speed * Quadratic);

    /// <summary>rad/s3, second derivative of the speed, at a speed in rad/s.</summary>
    public double Bend(double speed) => Slowing(speed) * (Linear + 2 * Quadratic * speed);
}

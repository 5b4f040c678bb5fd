namespace RigControl.Physics;

/// <summary>Torque that resists rotation: c0 + c1 w + c2 w² once it turns, and what must be overcome before it turns.</summary>
/// <param name="Constant">c0, N.m: seals, bearing preload, cogging.</param>
/// <param name="Linear">c1, N.m.s: grease.</param>
/// <param name="Quadratic">c2, N.m.s2: teeth and blades in air.</param>
/// <param name="Breakaway">Torque to start from rest, N.m; at least c0, less counts as c0.</param>
public readonly record struct Drag(double Constant, double Linear, double Quadratic, double Breakaway)
{
    /// <summary>N.m at a speed in rad/s, zero or above.</summary>
    public double Torque(double speed) => Constant + speed * (Linear + speed * Quadratic);

    /// <summary>Change of torque with speed, N.m.s, at a speed in rad/s, zero or above.</summary>
    public double Slope(double speed) => Linear + 2 * Quadratic * speed;

    /// <summary>N.m that the rotor withstands at rest.</summary>
    public double Holding => Math.Max(Breakaway, Constant);

    /// <summary>The same with a further dry friction, N.m.</summary>
    public Drag Plus(double friction) => this with { Constant = Constant + friction, Breakaway = Holding + friction };
}

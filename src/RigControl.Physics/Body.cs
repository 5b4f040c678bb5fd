namespace RigControl.Physics;

/// <summary>
/// A rigid body about one axis. Bodies are added to assemble a rotor and subtracted to drill holes in it.
/// Formulas: handbook mechanics of rigid bodies.
/// </summary>
/// <param name="Mass">kg; negative only for material taken away.</param>
/// <param name="Inertia">About the axis, kg.m2.</param>
public readonly record struct Body(double Mass, double Inertia)
{
    /// <summary>Solid disc or cylinder about its own axis. Mass in kg, radius in m.</summary>
    public static Body Disc(double mass, double radius) => new(mass, mass * radius * radius / 2);

    /// <summary>Disc with a concentric bore about its own axis. Mass in kg, radii in m.</summary>
    public static Body Ring(double mass, double outerRadius, double innerRadius)
        => new(mass, mass * (outerRadius * outerRadius + innerRadius * innerRadius) / 2);

    /// <summary>Ring whose wall is thin beside its radius. Mass in kg, radius in m.</summary>
    public static Body ThinRing(double mass, double radius) => new(mass, mass * radius * radius);

    /// <summary>Slender rod about its centre, axis across it. Mass in kg, length in m.</summary>
    public static Body Rod(double mass, double length) => new(mass, mass * length * length / 12);

    /// <summary>Rectangular bar about its centre, axis through the face of the two sides. Mass in kg, sides in m.</summary>
    public static Body Bar(double mass, double length, double width)
        => new(mass, mass * (length * length + width * width) / 12);

    /// <summary>Solid sphere about its centre. Mass in kg, radius in m.</summary>
    public static Body Sphere(double mass, double radius) => new(mass, mass * radius * radius * 2 / 5);

    /// <summary>The same body with its centre moved off the axis by a distance in m (parallel axis theorem).</summary>
    public Body At(double distance) => this with { Inertia = Inertia + Mass * distance * distance };

    public static Body operator +(Body left, Body right) => new(left.Mass + right.Mass, left.Inertia + right.Inertia);

    public static Body operator -(Body left, Body right) => new(left.Mass - right.Mass, left.Inertia - right.Inertia);
}

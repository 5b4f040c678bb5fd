namespace RigControl.Physics;

/// <summary>
/// A rotor hung on threads and set swinging about its axis, for small swings. Formulas: handbook mechanics (from memory).
/// </summary>
public static class Pendulum
{
    /// <summary>Standard acceleration of gravity, m/s2 (CGPM 1901).</summary>
    public const double Gravity = 9.80665;

    /// <summary>Inertia in kg.m2 from two parallel threads. Mass in kg, distance of the threads and their length in m, period in s.</summary>
    public static double Bifilar(double mass, double distance, double length, double period)
        => mass * Gravity * distance * distance * period * period / (16 * Math.PI * Math.PI * length);

    /// <summary>Inertia in kg.m2 from three parallel threads on a circle. Mass in kg, radius and length in m, period in s.</summary>
    public static double Trifilar(double mass, double radius, double length, double period)
        => mass * Gravity * radius * radius * period * period / (4 * Math.PI * Math.PI * length);

    /// <summary>
    /// Period over that of a small swing, for an amplitude in rad up to about 0.6: the first terms of the plain pendulum's series,
    /// which two or three long threads follow.
    /// </summary>
    public static double Amplitude(double amplitude)
    {
        double a = amplitude * amplitude;
        return 1 + a / 16 + 11 * a * a / 3072;
    }
}

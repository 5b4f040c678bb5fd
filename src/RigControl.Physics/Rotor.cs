namespace RigControl.Physics;

/// <summary>What turns, and what slows it apart from motor iron.</summary>
/// <param name="Inertia">Rotor, hub and turning part of the motor, kg.m2.</param>
/// <param name="TipRadius">Largest radius, m.</param>
/// <param name="Drag">Bearings, seals, teeth.</param>
/// <param name="WindageShare">Windage as a share of a smooth disc's of the tip radius; 1 is a smooth disc in open air, 0 none.</param>
public sealed record Rotor(double Inertia, double TipRadius, Drag Drag, double WindageShare)
{
    /// <summary>Stored energy, J, at a speed in rad/s.</summary>
    public double Energy(double speed) => 0.5 * Inertia * speed * speed;

    /// <summary>Speed of the tip, m/s, at a speed in rad/s.</summary>
    public double TipSpeed(double speed) => TipRadius * Math.Abs(speed);
}

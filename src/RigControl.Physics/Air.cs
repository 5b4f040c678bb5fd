namespace RigControl.Physics;

/// <summary>The air around the rotor.</summary>
/// <param name="Density">kg/m3.</param>
/// <param name="KinematicViscosity">m2/s.</param>
public readonly record struct Air(double Density, double KinematicViscosity)
{
    /// <summary>Dry air at 20 degC and 1 atm (handbook values).</summary>
    public static readonly Air AtTwentyDegrees = new(1.204, 1.516e-5);
}

namespace RigControl.Physics;

/// <summary>Two lumps of heat in a row, such as winding and case: the inner warms the outer, the outer the surroundings.</summary>
/// <param name="InnerCapacity">J/K, above 0.</param>
/// <param name="OuterCapacity">J/K, above 0.</param>
/// <param name="InnerToOuter">Conductance, W/K.</param>
/// <param name="OuterToAmbient">Conductance, W/K.</param>
public sealed record Heat(double InnerCapacity, double OuterCapacity, double InnerToOuter, double OuterToAmbient);

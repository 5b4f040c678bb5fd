namespace RigControl.Physics;

/// <summary>Two lumps of heat in a row, such as winding and case: the inner warms the outer, the outer the surroundings.</summary>
/// <param name="InnerCapacity">J/K, above 0.</param>
/// <param name="OuterCapacity">J/K, above 0.</param>
/// <param name="InnerToOuter">Conductance, W/K.</param>
/// <param name="OuterToAmbient">Conductance, W/K.</param>
public sealed record Heat(double InnerCapacity, double OuterCapacity, double InnerToOuter, double OuterToAmbient);

/// <summary>Temperatures of the two lumps, degC.</summary>
public struct HeatState(double inner, double outer)
{
    public double Inner = inner;

    public double Outer = outer;

    /// <summary>
    /// Warms both for <paramref name="dt"/> s by powers in W, against an ambient in degC, and returns the heat given off, J.
    /// Implicit midpoint rule: second order, stable for any step, and no heat is lost in it.
    /// </summary>
    public double Advance(Heat data, double innerPower, double outerPower, double ambient, double dt)
    {
        double a = 2 * data.InnerCapacity / dt;
        double b = 2 * data.OuterCapacity / dt;
        double link = data.InnerToOuter;
        double loss = data.OuterToAmbient;
        double innerSide = a * Inner + innerPower;
        double outerSide = b * Outer + outerPower + loss * ambient;
        double middleOuter = (outerSide * (a + link) + link * innerSide) / ((a + link) * (b + link + loss) - link * link);
        double middleInner = (innerSide + link * middleOuter) / (a + link);
        Inner = 2 * middleInner - Inner;
        Outer = 2 * middleOuter - Outer;
        return loss * (middleOuter - ambient) * dt;
    }
}

namespace RigControl.Physics;

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
        double perHalfStep = 2 / dt;
        double a = data.InnerCapacity * perHalfStep;
        double b = data.OuterCapacity * perHalfStep;
        double link = data.InnerToOuter;
        double loss = data.OuterToAmbient;
        double innerSide = a * Inner + innerPower;
        double outerSide = b * Outer + outerPower + loss * ambient;
        double perDeterminant = 1 / ((a + link) * (b + link + loss) - link * link);
        double middleInner = (innerSide * (b + link + loss) + link * outerSide) * perDeterminant;
        double middleOuter = (outerSide * (a + link) + link * innerSide) * perDeterminant;
        Inner = 2 * middleInner - Inner;
        Outer = 2 * middleOuter - Outer;
        return loss * (middleOuter - ambient) * dt;
    }
}

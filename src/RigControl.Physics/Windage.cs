namespace RigControl.Physics;

/// <summary>
/// Air drag of a smooth disc turning in open air: both faces, rim neglected.
/// Moment coefficient Cm = 2 M / (density w² R⁵) over Re = w R² / viscosity.
/// Laminar 3.87/√Re: von Karman's disc, Rogers and Lance, J. Fluid Mech. 7 (1960) 617 (from memory).
/// Turbulent 0.146/Re^0.2: Schlichting, Boundary-Layer Theory, ch. 5 (from memory).
/// A housing close to the disc lowers it, teeth and holes raise it: that is what a measured drag is for.
/// </summary>
public static class Windage
{
    /// <summary>
    /// Below this Reynolds number the flow counts as laminar.
    /// The sources give about 3e5 for the change; the width is our own choice.
    /// </summary>
    public const double LaminarBelow = 2.5e5;

    /// <summary>Above this Reynolds number the flow counts as turbulent.</summary>
    public const double TurbulentAbove = 3.5e5;

    /// <summary>Reynolds number of a disc. Radius in m, speed in rad/s, either sign.</summary>
    public static double Reynolds(in Air air, double radius, double speed) => Math.Abs(speed) * radius * radius / air.KinematicViscosity;

    /// <summary>Moment coefficient of both faces; in the transition a smooth blend of the two laws. Reynolds above 0.</summary>
    public static double MomentCoefficient(double reynolds)
    {
        double share = TurbulentShare(reynolds);
        double laminar = share < 1 ? LaminarCoefficient(reynolds) : 0;
        double turbulent = share > 0 ? TurbulentCoefficient(reynolds) : 0;
        return laminar + share * (turbulent - laminar);
    }

    public static double LaminarCoefficient(double reynolds) => 3.87 / Math.Sqrt(reynolds);

    public static double TurbulentCoefficient(double reynolds) => 0.146 / FifthRoot(reynolds);

    /// <summary>Torque that resists rotation, N.m, never negative. Radius in m, speed in rad/s.</summary>
    public static double Torque(in Air air, double radius, double speed)
    {
        double reynolds = Reynolds(air, radius, speed);
        if (reynolds <= 0)
            return 0;
        double radiusSquared = radius * radius;
        return 0.5 * MomentCoefficient(reynolds) * air.Density * speed * speed * radiusSquared * radiusSquared * radius;
    }

    private static double TurbulentShare(double reynolds)
    {
        double x = Math.Clamp((reynolds - LaminarBelow) / (TurbulentAbove - LaminarBelow), 0, 1);
        return x * x * (3 - 2 * x);
    }

    /// <summary>By Newton's rule from above, in + - × ÷ √ only, so that every machine gets the same bits. Argument at least 1.</summary>
    private static double FifthRoot(double x)
    {
        double root = Math.Sqrt(Math.Sqrt(x));
        for (int i = 0; i < 60; i++)
        {
            double next = (4 * root + x / (root * root * root * root)) / 5;
            if (next >= root)
                break;
            root = next;
        }

        return root;
    }
}

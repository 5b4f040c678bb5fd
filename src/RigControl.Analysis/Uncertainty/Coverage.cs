using MathNet.Numerics.Distributions;

namespace RigControl.Analysis.Uncertainty;

/// <summary>How many standard uncertainties an interval reaches to each side.</summary>
public static class Coverage
{
    private const double Normal95 = 1.959963984540054;

    // Beyond this many degrees of freedom Student's factor is the normal one within 0.03 %.
    private const double Many = 5000;

    /// <summary>For 95 %: Student's t with degrees of freedom of 1 and above, infinity included.</summary>
    public static double Factor95(double freedom) => Factor(0.95, freedom);

    /// <summary>
    /// By how much the factor for 95 % is smaller where a single rectangular input has this share of the variance: from nothing to
    /// 1.960 − 0.95 √3 = 0.315 where there is nothing else. Fitted to the exact sum of a normal and a rectangular value, within 0.02.
    /// </summary>
    public static double LessForFlat(double share) => share * share * (0.12 + 0.195 * share * share * share * share);

    /// <summary>For a probability between 0 and 1.</summary>
    public static double Factor(double probability, double freedom) => freedom < Many
        ? StudentT.InvCDF(0, 1, Math.Max(1, freedom), 0.5 + probability / 2)
        : probability == 0.95 ? Normal95 : Normal.InvCDF(0, 1, 0.5 + probability / 2);

    /// <summary>Degrees of freedom that have this factor for 95 %: infinity for the normal factor and below, 1 for the largest there is.</summary>
    public static double Freedom95(double factor)
    {
        if (!(factor > 1.001 * Normal95))
            return double.PositiveInfinity;
        (double few, double many) = (1, Many);
        for (int halved = 0; halved < 60; halved++)
        {
            double middle = Math.Sqrt(few * many);
            (few, many) = Factor95(middle) > factor ? (middle, many) : (few, middle);
        }

        return few;
    }

    /// <summary>Effective degrees of freedom of a sum of independent parts: Welch and Satterthwaite (JCGM 100:2008, G.4.1; from memory).</summary>
    public static double EffectiveFreedom(IEnumerable<(double Uncertainty, double Freedom)> parts)
    {
        double variance = 0, sum = 0;
        foreach ((double u, double freedom) in parts)
        {
            variance += u * u;
            sum += u * u * u * u / freedom;
        }

        return sum > 0 ? variance * variance / sum : double.PositiveInfinity;
    }
}

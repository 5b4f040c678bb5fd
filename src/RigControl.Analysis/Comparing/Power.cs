using MathNet.Numerics.Distributions;

namespace RigControl.Analysis.Comparing;

/// <summary>How likely a comparison is to see a difference that is there.</summary>
public static class Power
{
    /// <summary>The share of times that a promised difference is seen.</summary>
    public const double Promised = 0.8;

    // Midpoints over the distribution of the scatter; more change the fourth digit.
    private const int Points = 200;

    /// <summary>Probability that a two-sided t-test calls a difference.</summary>
    /// <param name="ratio">True difference over its standard error.</param>
    /// <param name="freedom">Degrees of freedom of the scatter, 1 and above.</param>
    /// <param name="level">Chance of a false alarm, such as 0.05.</param>
    public static double Of(double ratio, double freedom, double level)
    {
        double limit = double.IsInfinity(freedom) ? Normal.InvCDF(0, 1, 1 - level / 2) : StudentT.InvCDF(0, 1, freedom, 1 - level / 2);
        if (double.IsInfinity(freedom) || freedom > 1000)
            return Beyond(limit, ratio);
        double sum = 0;
        for (int i = 0; i < Points; i++)
            sum += Beyond(limit * Math.Sqrt(ChiSquared.InvCDF(freedom, (i + 0.5) / Points) / freedom), ratio);
        return sum / Points;
    }

    /// <summary>The true difference, in standard errors, that is seen with <see cref="Promised"/> probability.</summary>
    public static double Detectable(double freedom, double level)
    {
        double low = 0, high = 10;
        while (Of(high, freedom, level) < Promised)
            high *= 2;
        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Of(middle, freedom, level) < Promised ? (middle, high) : (low, middle);
        }

        return high;
    }

    /// <summary>Runs on each side that see a difference with <see cref="Promised"/> probability; null above <paramref name="most"/>.</summary>
    /// <param name="difference">The difference to see.</param>
    /// <param name="scatter">Standard deviation from run to run, in the same unit.</param>
    public static int? RunsFor(double difference, double scatter, double level, int most)
    {
        // Below three a side the scatter of a single day would decide.
        for (int runs = 3; runs <= most; runs++)
        {
            if (Of(difference / (scatter * Math.Sqrt(2.0 / runs)), 2 * runs - 2, level) >= Promised)
                return runs;
        }

        return null;
    }

    private static double Beyond(double limit, double ratio) => Normal.CDF(0, 1, ratio - limit) + Normal.CDF(0, 1, -ratio - limit);
}

using MathNet.Numerics.Distributions;

namespace RigControl.Analysis.Comparing;

/// <summary>How likely a comparison is to see a difference that is there.</summary>
public static class TestPower
{
    /// <summary>The share of times that a promised difference is seen.</summary>
    public const double Promised = 0.8;

    // Midpoints over the distribution of the scatter; more change the fourth digit.
    private const int Points = 200;

    // Above so many degrees of freedom the scatter is as good as known.
    private const double Many = 1000;

    /// <summary>Probability that a two-sided t-test calls a difference.</summary>
    /// <param name="ratio">True difference over its standard error.</param>
    /// <param name="freedom">Degrees of freedom of the scatter, 1 and above.</param>
    /// <param name="level">Chance of a false alarm, such as 0.05.</param>
    public static double Of(double ratio, double freedom, double level) => Of(ratio, Limits(freedom, level));

    /// <summary>The true difference, in standard errors, that is seen with <see cref="Promised"/> probability.</summary>
    public static double Detectable(double freedom, double level)
    {
        double[] limits = Limits(freedom, level);
        double low = 0, high = 10;
        while (Of(high, limits) < Promised)
            high *= 2;
        for (int i = 0; i < 30; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Of(middle, limits) < Promised ? (middle, high) : (low, middle);
        }

        return high;
    }

    /// <summary>Runs on each side that see a difference with <see cref="Promised"/> probability; null above <paramref name="most"/>.</summary>
    /// <param name="difference">The difference to see.</param>
    /// <param name="scatter">Standard deviation from run to run, in the same unit.</param>
    public static int? RunsFor(double difference, double scatter, double level, int most)
    {
        // Never fewer than with a scatter that is known; below three a side the scatter of a single day would decide.
        double sum = Normal.InvCDF(0, 1, 1 - level / 2) + Normal.InvCDF(0, 1, Promised);
        double fewest = Math.Floor(2 * sum * sum * scatter * scatter / (difference * difference));
        for (int runs = (int)Math.Clamp(fewest, 3, most + 1.0); runs <= most; runs++)
        {
            if (Of(difference / (scatter * Math.Sqrt(2.0 / runs)), 2 * runs - 2, level) >= Promised)
                return runs;
        }

        return null;
    }

    private static double Of(double ratio, double[] limits)
    {
        double sum = 0;
        foreach (double limit in limits)
            sum += Normal.CDF(0, 1, ratio - limit) + Normal.CDF(0, 1, -ratio - limit);
        return sum / limits.Length;
    }

    // What the difference has to pass, in its true standard errors, at evenly spread points of the scatter that may be seen.
    private static double[] Limits(double freedom, double level)
    {
        if (freedom > Many)
            return [Normal.InvCDF(0, 1, 1 - level / 2)];
        double limit = StudentT.InvCDF(0, 1, freedom, 1 - level / 2);
        double[] limits = new double[Points];
        for (int i = 0; i < Points; i++)
            limits[i] = limit * Math.Sqrt(ChiSquared.InvCDF(freedom, (i + 0.5) / Points) / freedom);
        return limits;
    }
}

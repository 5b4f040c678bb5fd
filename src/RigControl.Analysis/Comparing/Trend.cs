using MathNet.Numerics.Distributions;

namespace RigControl.Analysis.Comparing;

/// <summary>One run's value in the course of many.</summary>
/// <param name="Value">The value.</param>
/// <param name="Expected">Where 99 % of values are expected from those before it; null before the fourth.</param>
/// <param name="Outside">Whether the value is outside of that.</param>
/// <param name="Creeping">
/// 1 or −1 where values have crept up or down so long that chance is no explanation, though each may be within its band; 0
/// otherwise.
/// </param>
public sealed record TrendPoint(double Value, (double Low, double High)? Expected, bool Outside, int Creeping);

/// <summary>
/// Watches a figure from run to run. Each value is held against those before it, so that no known normal is needed: the
/// self-starting cumulative sum (D. M. Hawkins, The Statistician 36 (1987) 299, from memory). A value far outside its band
/// does not become part of the normal; leaving out more than that would narrow the band while nothing changes.
/// </summary>
public static class Trend
{
    /// <summary>Share of values that a band holds while nothing changes.</summary>
    public const double Band = 0.99;

    // The usual slack and limit: a step of one standard deviation is seen after about ten runs, and without any a false alarm
    // comes about every 465 (D. C. Montgomery, Statistical Quality Control, tabular cusum; from memory).
    private const double Slack = 0.5;
    private const double Limit = 5;
    private const int Fewest = 3;

    // In standard deviations. While nothing changes one value in 4600 is so far out.
    private const double Farthest = 3.7;

    /// <param name="values">In the order of time.</param>
    public static IReadOnlyList<TrendPoint> Of(IReadOnlyList<double> values)
    {
        List<TrendPoint> points = [];
        (int n, double mean, double squares) = (0, 0, 0);
        (double up, double down) = (0, 0);
        foreach (double value in values)
        {
            (double Low, double High)? expected = null;
            bool outside = false;
            double score = 0;
            if (n >= Fewest)
            {
                double step = Math.Sqrt(squares / (n - 1) * (1 + 1.0 / n));
                double half = Factor(n - 1) * step;
                expected = (mean - half, mean + half);
                outside = Math.Abs(value - mean) > half;
                score = Score((value - mean) / step, n - 1);
                up = Math.Max(0, up + score - Slack);
                down = Math.Max(0, down - score - Slack);
            }

            points.Add(new TrendPoint(value, expected, outside, up > Limit ? 1 : down > Limit ? -1 : 0));
            if (outside && Math.Abs(score) >= Farthest)
                continue;
            n++;
            double before = value - mean;
            mean += before / n;
            squares += before * (value - mean);
        }

        return points;
    }

    // For many degrees of freedom the normal's is the same within a thousandth and far quicker.
    private static double Factor(int freedom) => freedom > 500 ? 2.5758293035489 : Uncertainty.Coverage.Factor(Band, freedom);

    // As far out as a normal one of the same probability; never so far that a single value fills the sum.
    private static double Score(double t, int freedom)
    {
        if (double.IsNaN(t))
            return 0;
        if (double.IsInfinity(t))
            return Math.Sign(t) * Farthest;
        double score = freedom > 500 ? t : Normal.InvCDF(0, 1, Math.Clamp(StudentT.CDF(0, 1, freedom, t), 1e-5, 1 - 1e-5));
        return Math.Clamp(score, -Farthest, Farthest);
    }
}

using MathNet.Numerics.Distributions;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>
/// The highest level behind values that scatter: a parabola through as many values around the highest as it describes. The highest
/// value itself stands above it by chance.
/// </summary>
internal static class Crest
{
    // Values to each side of the narrowest parabola, and of the widest.
    private const int Narrowest = 3;
    private const int Widest = 400;

    /// <summary>The level; null where even the narrowest parabola does not describe the values: a spike or a step.</summary>
    /// <param name="noise">Scatter of single values, above 0.</param>
    public static Measured? Of(double[] times, double[] values, double noise)
    {
        Measured? best = null;
        int widest = 0;
        for (int reach = Narrowest; 2 * reach + 1 <= values.Length && reach <= Widest; reach = reach * 3 / 2 + 1)
        {
            int middle = HighestMean(values, reach);
            if (Fitted(times, values, middle - reach, middle + reach + 1, noise) is not { } wider)
                break;
            (best, widest) = (wider, 2 * reach + 1);
        }

        return best is null ? null : best with { Value = best.Value - Excess(values, widest, noise) };
    }

    // The highest of several means that are as high but for chance lies above the truth by about this much. Mean of the largest of n
    // normal values: G. Blom, Statistical Estimates and Transformed Beta-Variables, Wiley 1958 (from memory).
    private static double Excess(double[] values, int count, double noise)
    {
        double spread = noise / Math.Sqrt(count);
        List<double> means = [];
        for (int from = 0; from + count <= values.Length; from += count)
            means.Add(values.AsSpan(from, count).ToArray().Average());
        double highest = means.Max();
        double rivals = means.Count(m => m > highest - 3 * spread);
        return rivals <= 1 ? 0 : spread * Normal.InvCDF(0, 1, (rivals - 0.375) / (rivals + 0.25));
    }

    // Middle of the window whose mean is the highest.
    private static int HighestMean(double[] values, int reach)
    {
        double sum = 0, highest = double.NegativeInfinity;
        int at = reach;
        for (int i = 0; i < values.Length; i++)
        {
            sum += values[i] - (i > 2 * reach ? values[i - 2 * reach - 1] : 0);
            if (i >= 2 * reach && sum > highest)
                (highest, at) = (sum, i - reach);
        }

        return at;
    }

    private static Measured? Fitted(double[] times, double[] values, int first, int end, double noise)
    {
        double middle = 0.5 * (times[first] + times[end - 1]), half = 0.5 * (times[end - 1] - times[first]);
        double[] x = [.. times[first..end].Select(t => (t - middle) / half)];
        Fit fit = LinearFit.Solve([[.. x.Select(_ => 1.0)], x, [.. x.Select(a => a * a)]], values[first..end]);
        int count = end - first;
        bool scatters = fit.ResidualDeviation <= noise * (1 + 2.5 / Math.Sqrt(2.0 * (count - 3)));
        bool hangs = count > 12 && Summary.Autocorrelation(fit.Residuals, 1) > 2.2 / Math.Sqrt(count);
        if (!scatters || hangs)
            return null;
        // A bend that cannot be told from none would be climbed all the same, always upwards.
        if (Math.Abs(fit.Parameters[1]) < 2 * fit.Uncertainty(1) && Math.Abs(fit.Parameters[2]) < 2 * fit.Uncertainty(2))
            return Measured.Of(values.AsSpan(first, count).ToArray().Average(), new Input("scatter of the samples", 0, Math.Max(noise, fit.ResidualDeviation) / Math.Sqrt(count)));
        double[] p = fit.Parameters;
        double top = p[2] < 0 ? Math.Clamp(-p[1] / (2 * p[2]), -1, 1) : p[1] > 0 ? 1 : -1;
        double[] row = [1, top, top * top];
        double variance = 0;
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++)
                variance += row[i] * row[j] * fit.Covariance[i, j];
        }

        // The covariance goes with the scatter seen in the window; where few values are left, that of all of them is known better.
        double scale = fit.ResidualDeviation > 0 ? Math.Max(1, count < 30 ? noise / fit.ResidualDeviation : 1) : 1;
        // Around the top the values themselves say as much: what the two differ by is how well a parabola describes the crest.
        double peak = p[0] + top * (p[1] + top * p[2]);
        if (Math.Abs(top) >= 1)
            return Measured.Of(peak, new Input("scatter of the samples", 0, scale * Math.Sqrt(variance)));
        double around = Enumerable.Range(0, count).Where(i => Math.Abs(x[i] - top) <= 0.3).Select(i => values[first + i]).DefaultIfEmpty(peak).Average();
        return Measured.Of(0.5 * (peak + around), new Input("scatter of the samples", 0, scale * Math.Sqrt(variance)), new Input("shape of the crest", 0, 0.5 * Math.Abs(peak - around)));
    }
}

using MathNet.Numerics.Distributions;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Power;

/// <summary>The highest or the lowest sample, never averaged away, and for how long it lasted.</summary>
internal static class Extreme
{
    // A sample this close to the extreme one lasts with it.
    private const double Beside = 0.05;

    public static Measured Of(Series series, bool highest)
    {
        double sign = highest ? 1 : -1;
        int at = 0;
        for (int i = 1; i < series.Count; i++)
            at = sign * series.Values[i] > sign * series.Values[at] ? i : at;
        double value = series.Values[at], noise = PackSeries.Noise(series);
        // Among many samples that are as extreme but for chance, the most extreme lies beyond the truth: the interval says so,
        // the number stays the sample.
        int rivals = series.Values.Count(v => Math.Abs(v - value) < 4 * noise);
        double excess = rivals <= 1 ? 0 : noise * Normal.InvCDF(0, 1, (rivals - 0.375) / (rivals + 0.25));
        double half = Coverage.Factor95(double.PositiveInfinity) * noise;
        (double near, double far) = (value + sign * Math.Max(0, half - excess), value - sign * (half + excess));
        return new Measured(value, noise)
        {
            Asymmetric = rivals <= 1 ? null : (Math.Min(near, far), Math.Max(near, far)),
            Note = $"within {100 * Beside:0} % of it for {Duration(series, at, value):0.###} s",
        };
    }

    private static double Duration(Series series, int at, double value)
    {
        bool Near(int i) => Math.Abs(series.Values[i] - value) <= Beside * Math.Abs(value);
        int first = at, last = at;
        while (first > 0 && Near(first - 1))
            first--;
        while (last + 1 < series.Count && Near(last + 1))
            last++;
        return series.Times[last] - series.Times[first] + (series.Count > 1 ? PackSeries.Period(series) : 0);
    }
}

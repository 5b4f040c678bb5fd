using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Power;

/// <summary>The highest or the lowest sample, never averaged away, and for how long it lasted.</summary>
internal static class Extreme
{
    // A sample this close to the extreme one lasts with it.
    private const double Beside = 0.05;
    private const double Usual = 1.96;

    // The sample itself ends the interval on one side, so that all 5 % are left for the other.
    private const double OneSided = 1.645;
    private const int Around = 4;

    public static Measured Of(Series series, bool highest)
    {
        double sign = highest ? 1 : -1;
        int at = 0;
        for (int i = 1; i < series.Count; i++)
            at = sign * series.Values[i] > sign * series.Values[at] ? i : at;
        double value = series.Values[at], noise = PackSeries.Noise(series);
        // Among many samples that are as extreme but for chance, the most extreme lies beyond the truth: the interval says so,
        // the number stays the sample.
        Measured? level = noise > 0 ? Crest.Of(series.Times, highest ? series.Values : [.. series.Values.Select(v => -v)], noise) : null;
        double beyond = Beyond(series, at, noise);
        (double near, double far) = level is null ? (value - sign * OneSided * noise, value) : (sign * (level.Value - OneSided * level.Uncertainty), sign * (level.Value + Usual * level.Uncertainty));
        far = sign * Math.Max(sign * far, sign * value + beyond);
        near = sign * Math.Min(sign * near, sign * value);
        return new Measured(value, (Math.Max(near, far) - Math.Min(near, far)) / (2 * Usual))
        {
            Asymmetric = noise > 0 || beyond > 0 ? (Math.Min(near, far), Math.Max(near, far)) : null,
            Note = $"within {100 * Beside:0} % of it for {Duration(series, at, value):0.###} s",
        };
    }

    // A peak with a corner is taken off by any parabola, and its tip may lie between two samples: the sample may be low by its scatter
    // and by what the values change from one sample to the next.
    private static double Beyond(Series series, int at, double noise)
    {
        int first = Math.Max(0, at - Around), last = Math.Min(series.Count - 1, at + Around);
        double before = Math.Abs(series.Values[at] - series.Values[first]) / Math.Max(1, at - first);
        double after = Math.Abs(series.Values[at] - series.Values[last]) / Math.Max(1, last - at);
        return noise + 0.5 * Math.Max(before, after);
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

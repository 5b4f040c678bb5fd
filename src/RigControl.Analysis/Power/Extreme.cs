using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;

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
        Measured? level = noise > 0 ? Crest.Of(series.Times, highest ? series.Values : [.. series.Values.Select(v => -v)], noise) : null;
        return new Measured(value, level is null ? noise : Measured.Combine(level.Uncertainty, value - sign * level.Value))
        {
            Asymmetric = level is null ? null : Around(level.Times(sign), value, sign * noise),
            Note = $"within {100 * Beside:0} % of it for {Duration(series, at, value):0.###} s",
        };
    }

    // A peak with a corner is taken off by any parabola, and may lie between two samples: on that side the sample itself counts.
    private static (double Low, double High) Around(Measured level, double value, double beyond)
    {
        (double low, double high) = level.Interval95;
        return beyond > 0 ? (Math.Min(low, value), Math.Max(high, value + beyond)) : (Math.Min(low, value + beyond), Math.Max(high, value));
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

using MathNet.Numerics.Distributions;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Power;

/// <summary>
/// The highest or the lowest of a channel, and for how long it lasted: the level behind samples that scatter, and the sample itself where
/// they do not, or where it stands out of them. A spike is never averaged away.
/// </summary>
internal static class Extreme
{
    // A sample this close to the extreme one lasts with it.
    private const double Beside = 0.05;
    private const double Usual = 1.96;

    // The sample itself ends the interval on one side, so that all 5 % are left for the other.
    private const double OneSided = 1.645;
    private const int Around = 4;

    // Scatter below this share of a step is the step's own.
    private const double Scatters = 0.45;

    // One record in a thousand takes what chance did for a spike.
    private const double Chance = 0.001;

    public static Measured Of(Series series, bool highest)
    {
        double[] values = highest ? series.Values : [.. series.Values.Select(v => -v)];
        int at = 0;
        for (int i = 1; i < values.Length; i++)
            at = values[i] > values[at] ? i : at;
        Measured found = Highest(series, values, at, PackSeries.Noise(series));
        return (highest ? found : found.Times(-1)) with { Note = $"within {100 * Beside:0} % of it for {Duration(series, at, series.Values[at]):0.###} s" };
    }

    private static Measured Highest(Series series, double[] values, int at, double noise)
    {
        double beyond = Beyond(series, at, noise);
        if (noise > Scatters * series.Resolution)
        {
            if (Corner.Of(series.Times, values, noise, at) is { } tip && !StandsOut(values, at, tip, noise))
                return tip;
            if (Crest.Of(series.Times, values, noise) is { } level && !StandsOut(values, at, level, noise))
                // A tip too short or too blunt to be seen may hide in the scatter.
                return Lopsided(level.Value, level.Value - Usual * level.Uncertainty, level.Value + Math.Max(Usual * level.Uncertainty, beyond));
        }

        return noise > 0 || beyond > 0 ? Lopsided(values[at], values[at] - OneSided * noise, values[at] + beyond) : new Measured(values[at], 0);
    }

    private static Measured Lopsided(double value, double low, double high) => new(value, (high - low) / (2 * Usual)) { Asymmetric = (low, high) };

    // Further above the level than the highest of so many samples gets by chance.
    private static bool StandsOut(double[] values, int at, Measured level, double noise) =>
        values[at] - level.Value > Measured.Combine(noise, level.Uncertainty) * Normal.InvCDF(0, 1, 1 - Chance / values.Length);

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

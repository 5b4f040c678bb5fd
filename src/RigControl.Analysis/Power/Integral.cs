using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Power;

/// <summary>A channel summed over time, with what the scatter, the resolution, the rule and the gaps make uncertain.</summary>
internal static class Integral
{
    // A gap is what is this many times as long as usual.
    private const double Gap = 5;

    /// <summary>Unit of the values times s, by the trapezoidal rule.</summary>
    public static Measured Of(Series series)
    {
        double sum = Sum(series, 1, out double squares);
        double seconds = series.Times[^1] - series.Times[0];
        double noise = PackSeries.Noise(series);
        double hidden = noise <= series.Resolution ? Measured.OfResolution(series.Resolution) * seconds : 0;
        // Half as many samples make four times the error of the rule; a third of the difference is what is left in the full sum.
        double rule = series.Count > 4 ? Math.Abs(sum - Sum(series, 2, out double half)) / 3 : 0;
        rule = Math.Max(0, rule - noise * Math.Sqrt(squares));
        (double missing, string? note) = Gaps(series);
        return Measured.Of(
            sum,
            new Input("scatter of the samples", 0, noise * Math.Sqrt(squares)),
            new Input("resolution", 0, hidden),
            new Input("integration rule", 0, rule),
            new Input("gaps", 0, missing)) with { Note = note };
    }

    /// <summary>A function of the values summed over time, unit × s, at every sample; by the trapezoidal rule.</summary>
    public static double[] Cumulated(Series series, Func<double, double> value)
    {
        double[] sums = new double[series.Count];
        for (int i = 1; i < sums.Length; i++)
            sums[i] = sums[i - 1] + 0.5 * (value(series.Values[i]) + value(series.Values[i - 1])) * (series.Times[i] - series.Times[i - 1]);
        return sums;
    }

    // Squares: sum of each sample's weight squared, s2.
    private static double Sum(Series series, int stride, out double squares)
    {
        double sum = 0, before = 0;
        squares = 0;
        int last = series.Count - 1;
        for (int i = 0; i < last;)
        {
            int next = Math.Min(i + stride, last);
            double span = series.Times[next] - series.Times[i];
            sum += 0.5 * (series.Values[i] + series.Values[next]) * span;
            squares += 0.25 * (before + span) * (before + span);
            before = span;
            i = next;
        }

        squares += 0.25 * before * before;
        return sum;
    }

    private static (double Uncertainty, string? Note) Gaps(Series series)
    {
        double usual = PackSeries.Period(series), variance = 0, longest = 0;
        int count = 0;
        for (int i = 1; i < series.Count; i++)
        {
            double span = series.Times[i] - series.Times[i - 1];
            if (span <= Gap * usual)
                continue;
            // Between two samples far apart the value may have gone either way by as much as it changed.
            double unknown = span * Math.Abs(series.Values[i] - series.Values[i - 1]) / Math.Sqrt(12);
            variance += unknown * unknown;
            longest = Math.Max(longest, span);
            count++;
        }

        return (Math.Sqrt(variance), count == 0 ? null : $"{count} gap{(count == 1 ? "" : "s")} in the samples, the longest {longest:0.###} s");
    }
}

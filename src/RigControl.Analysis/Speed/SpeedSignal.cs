using RigControl.Analysis.Fitting;
using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Speed;

/// <summary>
/// A tachometer's readings as measurements: each fresh reading once, at the middle of the time over which it is a mean.
/// A reader repeats its last period until the next mark comes, so that a trace lags and claims more readings than there are.
/// </summary>
/// <param name="Times">s, rising.</param>
/// <param name="Values">rpm, above 0.</param>
/// <param name="Marks">Marks a turn as the repeats tell; 0 where readings do not repeat and nothing can be said.</param>
/// <param name="Resolution">Step of the readings, rpm; 0 where none is seen.</param>
/// <param name="Notes">What was left out, and why.</param>
public sealed record SpeedSignal(double[] Times, double[] Values, double Marks, double Resolution, IReadOnlyList<string> Notes)
{
    private const int MostBends = 4096;

    public int Count => Times.Length;

    /// <summary>Takes a trace's readings apart.</summary>
    public static SpeedSignal Of(Series series)
    {
        double resolution = Step(series);
        (double[] times, double[] values, double marks) = FreshReadings.Of(series, resolution);
        List<string> notes = [];
        (times, values) = SpikeFilter.Apply(times, values, resolution, notes);
        return new SpeedSignal(times, values, marks, resolution, notes);
    }

    /// <summary>The readings with <paramref name="from"/> &lt;= time &lt;= <paramref name="to"/>, s.</summary>
    public SpeedSignal Between(double from, double to)
    {
        int first = First(from), end = first;
        while (end < Count && Times[end] <= to)
            end++;
        return this with { Times = Times[first..end], Values = Values[first..end] };
    }

    /// <summary>Scatter of single readings, rpm, from second differences, so that neither a rise nor a bend counts; robust against outliers.</summary>
    public double Noise => NoiseOf(Values, Resolution);

    /// <summary>
    /// Share of the readings, 0 to 1, whose turn does not begin at the mark that ended the turn before; 1 where nothing is known of the marks.
    /// </summary>
    internal double Lone
    {
        get
        {
            if (!(Marks > 0) || Count < 2)
                return 1;
            int lone = 1;
            for (int i = 1; i < Count; i++)
            {
                double before = 60 / (Marks * Values[i - 1]), turn = 60 / (Marks * Values[i]);
                lone += Math.Abs(Times[i] - Times[i - 1] - 0.5 * (before + turn)) < 0.5 * Math.Min(before, turn) ? 0 : 1;
            }

            return (double)lone / Count;
        }
    }

    internal static double NoiseOf(ReadOnlySpan<double> values, double resolution)
    {
        double least = Figures.Measured.OfResolution(resolution);
        if (values.Length < 5)
            return least;
        // A few thousand tell the median to a percent.
        int stride = 1 + (values.Length - 3) / MostBends;
        double[] bends = new double[(values.Length - 2 + stride - 1) / stride];
        for (int k = 0, i = 0; k < bends.Length; k++, i += stride)
            bends[k] = Math.Abs(values[i] - 2 * values[i + 1] + values[i + 2]);
        return Math.Max(least, Summary.Median(bends) / (0.6745 * Math.Sqrt(6)));
    }

    // The declared step, or the smallest change seen where many changes are multiples of it.
    private static double Step(Series series)
    {
        if (series.Resolution > 0)
            return series.Resolution;
        double smallest = double.MaxValue;
        for (int i = 1; i < series.Count; i++)
        {
            double change = Math.Abs(series.Values[i] - series.Values[i - 1]);
            if (change > 1e-9 * Math.Abs(series.Values[i]) && change < smallest)
                smallest = change;
        }

        if (smallest == double.MaxValue)
            return 0;
        int multiples = 0, changes = 0;
        for (int i = 1; i < series.Count; i++)
        {
            double steps = Math.Abs(series.Values[i] - series.Values[i - 1]) / smallest;
            if (steps < 0.5)
                continue;
            changes++;
            multiples += Math.Abs(steps - Math.Round(steps)) < 1e-3 * Math.Max(1, steps) && steps < 1000 ? 1 : 0;
        }

        return changes >= 10 && multiples > 0.9 * changes ? smallest : 0;
    }

    private int First(double time)
    {
        int index = Array.BinarySearch(Times, time);
        return index >= 0 ? index : ~index;
    }
}

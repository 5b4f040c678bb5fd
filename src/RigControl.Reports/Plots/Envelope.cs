using RigControl.Analysis.Traces;

namespace RigControl.Reports.Plots;

/// <summary>
/// A series thinned to what a picture can show: the first, lowest, highest and last sample of every column of pixels, in the
/// order of their times, so that no peak is lost.
/// </summary>
internal static class Envelope
{
    /// <returns>At most four points per column.</returns>
    public static (double[] Times, double[] Values) Of(Series series, int columns)
    {
        if (series.Count <= 4 * columns)
            return (series.Times, series.Values);
        double from = series.Times[0], width = (series.Times[^1] - from) / columns;
        List<double> times = [], values = [];
        for (int i = 0; i < series.Count;)
        {
            int end = i + 1;
            int column = (int)((series.Times[i] - from) / width);
            while (end < series.Count && (int)((series.Times[end] - from) / width) == column)
                end++;
            foreach (int kept in Kept(series.Values, i, end))
            {
                times.Add(series.Times[kept]);
                values.Add(series.Values[kept]);
            }

            i = end;
        }

        return ([.. times], [.. values]);
    }

    private static IEnumerable<int> Kept(double[] values, int from, int end)
    {
        (int low, int high) = (from, from);
        for (int i = from; i < end; i++)
        {
            if (values[i] < values[low]) low = i;
            if (values[i] > values[high]) high = i;
        }

        return new[] { from, low, high, end - 1 }.Distinct().Order();
    }
}

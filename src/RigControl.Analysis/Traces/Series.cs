namespace RigControl.Analysis.Traces;

/// <summary>One channel over time: usable samples only, in order of time.</summary>
/// <param name="Unit">Unit of <paramref name="Values"/>.</param>
/// <param name="Resolution">Step of the values, in <paramref name="Unit"/>; 0 where unknown.</param>
/// <param name="Times">s, rising.</param>
/// <param name="Values">As many as <paramref name="Times"/>.</param>
public sealed record Series(string Unit, double Resolution, double[] Times, double[] Values)
{
    public int Count => Times.Length;

    /// <summary>The samples with <paramref name="from"/> &lt;= time &lt;= <paramref name="to"/>, s.</summary>
    public Series Between(double from, double to)
    {
        int first = FirstAt(from), end = Math.Max(first, FirstAfter(to));
        return first == 0 && end == Count ? this : this with { Times = Times[first..end], Values = Values[first..end] };
    }

    /// <summary>About as many samples of a stretch as stated, evenly picked: what changes slowly needs no more. At least all of a short one.</summary>
    /// <param name="fromHighest">Whether they begin at the highest sample of the stretch or just after it, instead of at its first.</param>
    public Series Picked(double from, double to, int count, bool fromHighest = false)
    {
        int first = FirstAt(from), end = Math.Max(first, FirstAfter(to));
        int skipped = fromHighest && end > first ? HighestOf(Values.AsSpan(first..end)) : 0;
        int stride = Math.Max(1, (end - first - skipped) / count);
        // Not at the very highest, unless by chance: its scatter has made it that.
        first += (skipped + stride - 1) / stride * stride;
        int[] picked = [.. Enumerable.Range(0, Math.Max(0, (end - first + stride - 1) / stride)).Select(k => first + k * stride)];
        return this with { Times = [.. picked.Select(i => Times[i])], Values = [.. picked.Select(i => Values[i])] };
    }

    /// <summary>
    /// Time at which the value first crosses a level at or after <paramref name="from"/>, by a straight line between the two
    /// samples around it, s; null where it never does.
    /// </summary>
    public double? Crossing(double level, double from, bool rising)
    {
        for (int i = Math.Max(1, FirstAt(from)); i < Count; i++)
        {
            (double before, double after) = (Values[i - 1], Values[i]);
            bool crosses = rising ? before < level && after >= level : before > level && after <= level;
            if (crosses)
                return Times[i - 1] + (Times[i] - Times[i - 1]) * (level - before) / (after - before);
        }

        return null;
    }

    /// <summary>Mean time between samples, s; 0 with fewer than two.</summary>
    public double MeanPeriod => Count < 2 ? 0 : (Times[^1] - Times[0]) / (Count - 1);

    // The first of equals.
    private static int HighestOf(ReadOnlySpan<double> values)
    {
        int highest = 0;
        for (int i = 1; i < values.Length; i++)
        {
            if (values[i] > values[highest])
                highest = i;
        }

        return highest;
    }

    private int FirstAt(double time)
    {
        int index = Array.BinarySearch(Times, time);
        return index >= 0 ? index : ~index;
    }

    private int FirstAfter(double time)
    {
        int index = Array.BinarySearch(Times, time);
        return index >= 0 ? index + 1 : ~index;
    }
}

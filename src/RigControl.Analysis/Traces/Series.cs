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

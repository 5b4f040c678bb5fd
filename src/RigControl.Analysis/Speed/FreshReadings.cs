using RigControl.Analysis.Fitting;
using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Speed;

/// <summary>Finds the readings that a mark brought, and when they were true.</summary>
internal static class FreshReadings
{
    // Below this many repeated readings nothing is said about the marks.
    private const int FewestRepeats = 5;
    private const int LongHeld = 3;

    // No coasting rotor makes a turn that lasts this many times as long as its last one, but for the turn in which it stops.
    private const double Standing = 4;

    public static (double[] Times, double[] Values, double Marks) Of(Series series, double resolution)
    {
        double period = Period(series);
        List<int> starts = Starts(series);
        if (!Repeats(series, starts, resolution))
            return Moving(series);
        double marks = Marks(series, starts, period);
        // Nothing tells how long a reading is held: where some stand for long, nothing tells fresh from repeated either.
        if (marks == 0 && Longest(series, starts) > 5 * Summary.Median([.. Lengths(series, starts)]))
            return Moving(series);
        return Dated(series, starts, marks, period, resolution);
    }

    private static (double[] Times, double[] Values, double Marks) Dated(Series series, List<int> starts, double marks, double period, double resolution)
    {
        List<double> values = [], lags = [];
        MarkChain chain = new();
        double mark = double.NaN, before = 0;
        for (int k = 0; k < starts.Count; k++)
        {
            int i = starts[k], end = k + 1 < starts.Count ? starts[k + 1] : series.Count;
            double value = series.Values[i];
            if (value <= 0 || i == 0 || (marks > 0 && IsOverdue(series, starts, k, marks, period, resolution)))
                continue;
            // A turn several times as long as the one before it was no turn: the rotor stood, and set off again.
            bool sameTurn = marks > 0 && Math.Abs(series.Times[i] - 60 / (marks * value) - mark) < 2 * period + 60 / (marks * value) * resolution / value;
            if (sameTurn && value < before / Standing)
                continue;
            (mark, before) = (series.Times[i], value);
            // The mark came since the sample before, and no longer ago than the next one can have stayed away; the reading is the mean over the turn, or its part, that ended there.
            double turn = marks > 0 ? 60 / (marks * value) : 0;
            double slack = turn * 0.5 * resolution / value;
            double since = Math.Min(series.Times[i] - series.Times[i - 1], 3 * period);
            // In coarse steps the last fall before a mark may look like the reading that the mark brings: it then came by the next sample.
            bool merges = marks > 0 && value * period < 2 * resolution * turn;
            double latest = series.Times[merges ? Math.Min(i + 1, end - 1) : i];
            chain.Add(series.Times[i] - (marks > 0 ? Math.Min(since, turn) : since), latest, marks > 0 ? turn : double.PositiveInfinity, slack);
            values.Add(value);
            lags.Add(turn / 2);
            // A steady speed reads the same turn after turn.
            for (double next = Math.Max(turn, period); marks > 0 && series.Times[i] + next - 0.5 * (turn + period) < series.Times[end - 1] - Math.Max(turn, period); next += Math.Max(turn, period))
            {
                chain.Add(series.Times[i] + next - period, series.Times[i] + next, turn > period ? turn : double.PositiveInfinity, slack);
                values.Add(value);
                lags.Add(turn / 2);
            }
        }

        chain.Settle();
        return Rising(chain.Marks, values, lags, marks);
    }

    private static (double[] Times, double[] Values, double Marks) Rising(List<double> ends, List<double> values, List<double> lags, double marks)
    {
        List<double> times = [], kept = [];
        for (int k = 0; k < ends.Count; k++)
        {
            double at = ends[k] - lags[k];
            if (times.Count > 0 && at <= times[^1])
                continue;
            times.Add(at);
            kept.Add(values[k]);
        }

        return ([.. times], [.. kept], marks);
    }

    private static IEnumerable<double> Lengths(Series series, List<int> starts) =>
        starts.Select((i, k) => (double)((k + 1 < starts.Count ? starts[k + 1] : series.Count) - i)).Where((_, k) => series.Values[starts[k]] > 0);

    private static double Longest(Series series, List<int> starts) => Lengths(series, starts).DefaultIfEmpty(0).Max();

    private static (double[], double[], double) Moving(Series series)
    {
        int[] moving = [.. Enumerable.Range(0, series.Count).Where(i => series.Values[i] > 0)];
        return ([.. moving.Select(i => series.Times[i])], [.. moving.Select(i => series.Values[i])], 0);
    }

    // Where a value begins that differs from the one before.
    private static List<int> Starts(Series series)
    {
        List<int> starts = [];
        for (int i = 0; i < series.Count; i++)
        {
            if (i == 0 || series.Values[i] != series.Values[i - 1])
                starts.Add(i);
        }

        return starts;
    }

    // A coarse but live reading also repeats; it then changes by one step at a time, while a held one jumps.
    private static bool Repeats(Series series, List<int> starts, double resolution)
    {
        int moving = series.Values.Count(v => v > 0);
        int fresh = starts.Count(i => series.Values[i] > 0);
        if (moving - fresh < Math.Max(FewestRepeats, moving / 50))
            return false;
        int jumps = 0;
        for (int k = 1; k < starts.Count; k++)
            jumps += Jumps(series, starts[k], resolution) ? 1 : 0;
        return jumps > starts.Count / 2 || JumpsWhileFalling(series, starts, resolution);
    }

    private static bool Jumps(Series series, int start, double resolution) => Math.Abs(series.Values[start] - series.Values[start - 1]) > 1.5 * resolution;

    // A steady speed may change by single steps for long, and near rest a reader that waits for a mark lets the speed fall step by step: what
    // tells are falls in a row, well above rest, each after a value that stood for a while.
    private static bool JumpsWhileFalling(Series series, List<int> starts, double resolution)
    {
        int[] falls = [.. Falls(series, starts, 0.25 * series.Values.Max())];
        return falls.Length >= FewestRepeats && falls.Count(k => Jumps(series, starts[k], resolution) && Jumps(series, starts[k + 1], resolution)) > falls.Length / 2;
    }

    // Values that stood for a while, less than the one before and more than the next.
    private static IEnumerable<int> Falls(Series series, List<int> starts, double least)
    {
        for (int k = 1; k + 1 < starts.Count; k++)
        {
            double value = series.Values[starts[k]];
            if (value > least && series.Values[starts[k - 1]] > value && value > series.Values[starts[k + 1]] && starts[k + 1] - starts[k] >= LongHeld)
                yield return k;
        }
    }

    // A reading is held for the period that it stands for: while the speed falls, each for as long as a turn, or its part, took.
    private static double Marks(Series series, List<int> starts, double period)
    {
        // Far below the highest speed a reader may only be waiting for a mark that never comes.
        double least = 0.02 * series.Values.Max();
        List<(double Marks, double Held)> told = [];
        foreach (int k in Falls(series, starts, least))
        {
            double held = series.Times[starts[k + 1]] - series.Times[starts[k]];
            if (held < 1.5 * (starts[k + 1] - starts[k]) * period)
                told.Add((60 / (series.Values[starts[k]] * held), held));
        }

        // A step between samples blurs a short turn more than a long one.
        double[] longest = [.. told.OrderByDescending(m => m.Held).Take(Math.Max(FewestRepeats, told.Count / 4)).Select(m => m.Marks)];
        double median = Summary.Median(longest);
        return told.Count < FewestRepeats || !(median > 0.6) ? 0 : Math.Round(median);
    }

    // With the next mark overdue a reader lets the speed fall as the time since the last one grows: a bound, not a reading. Such
    // readings all say that their turn began at the same moment; only the last of them may be one that a mark ended.
    private static bool IsOverdue(Series series, List<int> starts, int k, double marks, double period, double resolution)
    {
        bool last = k + 1 == starts.Count;
        int other = last ? k - 1 : k + 1;
        if (other < 0)
            return false;
        double value = series.Values[starts[k]], beside = series.Values[starts[other]];
        if (beside <= 0)
            return !last && 60 / (marks * value) > period;
        double age = 60 / (marks * value);
        double began = series.Times[starts[k]] - age, alsoBegan = series.Times[starts[other]] - 60 / (marks * beside);
        // The mark that ended the turn beside came at any moment since the sample before: a lost sample leaves more time for it.
        int later = Math.Max(starts[k], starts[other]);
        double since = Math.Max(period, Math.Min(series.Times[later] - series.Times[later - 1], 3 * period));
        return age > 2 * since && Math.Abs(began - alsoBegan) < 1.1 * since + age * resolution / Math.Min(value, beside);
    }

    private static double Period(Series series)
    {
        double[] gaps = new double[Math.Max(0, series.Count - 1)];
        for (int i = 0; i < gaps.Length; i++)
            gaps[i] = series.Times[i + 1] - series.Times[i];
        return gaps.Length > 0 ? Summary.Median(gaps) : 0;
    }
}

using RigControl.Analysis.Fitting;

namespace RigControl.Analysis.Speed;

/// <summary>
/// Readings that no rotor can have made: far from the median of their neighbours, and alone. A doubled or a missed mark shows as
/// twice or half the speed. Median rule: F. Hampel, J. Am. Stat. Assoc. 69 (1974) 383 (from memory).
/// </summary>
internal static class SpikeFilter
{
    private const int Reach = 3;

    // How close to twice counts as twice.
    private const double Like = 0.25;

    public static (double[] Times, double[] Values) Apply(double[] times, double[] values, double resolution, List<string> notes)
    {
        List<int> kept = new(times.Length);
        int doubled = 0, missed = 0, other = 0;
        double[] around = new double[2 * Reach + 1];
        for (int i = 0; i < times.Length; i++)
        {
            double median = 0;
            if (times.Length < around.Length || !(IsSpike(values, i, around, resolution, out median) || IsFalseMark(times, values, i, resolution, out median)))
                kept.Add(i);
            else if (Math.Abs(values[i] / median - 2) <= Like)
                doubled++;
            else if (Math.Abs(median / values[i] - 2) <= Like)
                missed++;
            else
                other++;
        }

        Tell(notes, doubled, "of twice the speed around them: a mark counted twice");
        Tell(notes, missed, "of half the speed around them: a mark missed");
        Tell(notes, other, "far from those around them");
        return kept.Count == times.Length ? (times, values) : ([.. kept.Select(i => times[i])], [.. kept.Select(i => values[i])]);
    }

    private static bool IsSpike(double[] values, int i, double[] around, double resolution, out double median)
    {
        int first = Math.Clamp(i - Reach, 0, values.Length - around.Length);
        Array.Copy(values, first, around, 0, around.Length);
        median = Middle(around);
        // A quick look first: most readings lie within a few percent of their neighbours.
        double off = Math.Abs(values[i] - median);
        if (off <= 0.1 * median + 3 * resolution)
            return false;
        for (int k = 0; k < around.Length; k++)
            around[k] = Math.Abs(values[first + k] - median);
        return off > 8 * Middle(around) + 3 * resolution;
    }

    // In a steep rise readings differ by so much that a spike hides among them. A false mark is told there by standing out of all its neighbours by
    // twice or half of what those beside it say; speeds that only rise or only fall never do.
    private static bool IsFalseMark(double[] times, double[] values, int i, double resolution, out double between)
    {
        between = 0;
        if (i == 0 || i + 1 >= values.Length)
            return false;
        double value = values[i], share = (times[i] - times[i - 1]) / (times[i + 1] - times[i - 1]);
        between = values[i - 1] + share * (values[i + 1] - values[i - 1]);
        double ratio = Math.Max(value / between, between / value);
        if (Math.Abs(ratio - 2) > Like || Math.Abs(value - between) <= 3 * resolution)
            return false;
        bool above = true, below = true;
        for (int k = Math.Max(0, i - Reach); k <= Math.Min(values.Length - 1, i + Reach); k++)
            (above, below) = (above && (k == i || value > values[k]), below && (k == i || value < values[k]));
        return above || below;
    }

    // Insertion sort of seven numbers.
    private static double Middle(double[] numbers)
    {
        for (int i = 1; i < numbers.Length; i++)
        {
            double x = numbers[i];
            int j = i - 1;
            for (; j >= 0 && numbers[j] > x; j--)
                numbers[j + 1] = numbers[j];
            numbers[j + 1] = x;
        }

        return numbers[numbers.Length / 2];
    }

    private static void Tell(List<string> notes, int count, string what)
    {
        if (count > 0)
            notes.Add($"{count} reading{(count == 1 ? "" : "s")} left out, {what}");
    }
}

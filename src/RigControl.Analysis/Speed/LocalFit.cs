using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>A short stretch of readings as a parabola in time, weighted alike: value, slope and when a level was passed.</summary>
internal static class LocalFit
{
    /// <summary>Most readings to each side of a crossing.</summary>
    private const int Reach = 25;

    /// <summary>
    /// When the speed passed a level for good, s, from the readings around; null where it never did.
    /// The readings used lie within a share of the level, so that a parabola describes them.
    /// </summary>
    public static Measured? Crossing(SpeedSignal signal, double level, double from, bool rising, double share)
    {
        int at = Find(signal, level, from, rising);
        if (at < 0)
            return null;
        int first = at, end = at + 1;
        while (first > 0 && at - first < Reach && signal.Times[first - 1] >= from && Math.Abs(signal.Values[first - 1] - level) <= share * level)
            first--;
        while (end < signal.Count && end - at < Reach && Math.Abs(signal.Values[end] - level) <= share * level)
            end++;
        return end - first < 5 ? OfLine(signal, at, level) : OfParabola(signal, first, end, level);
    }

    // First reading on the far side that most of its next ones share, so that one noisy reading does not decide.
    private static int Find(SpeedSignal signal, double level, double from, bool rising)
    {
        bool Passed(int i) => rising ? signal.Values[i] >= level : signal.Values[i] <= level;
        for (int i = 1; i < signal.Count; i++)
        {
            if (signal.Times[i] < from || !Passed(i))
                continue;
            int next = Math.Min(signal.Count, i + 5);
            int passed = Enumerable.Range(i, next - i).Count(Passed);
            if (2 * passed > next - i)
                return i;
        }

        return -1;
    }

    private static Measured OfLine(SpeedSignal signal, int at, double level)
    {
        int before = Math.Max(0, at - 1);
        double rise = signal.Values[at] - signal.Values[before], span = signal.Times[at] - signal.Times[before];
        double time = rise == 0 ? signal.Times[at] : signal.Times[before] + span * Math.Clamp((level - signal.Values[before]) / rise, -1, 2);
        double slope = span > 0 ? Math.Abs(rise / span) : 0;
        return Measured.Of(time, new Input("speed readings", 0, slope > 0 ? signal.Noise / slope : span), new Input("time between readings", 0, Measured.OfResolution(span)));
    }

    private static Measured OfParabola(SpeedSignal signal, int first, int end, double level)
    {
        double[] t = signal.Times[first..end], v = signal.Values[first..end];
        double middle = t.Average(), half = (t[^1] - t[0]) / 2;
        double[][] columns = [[.. t.Select(_ => 1.0)], [.. t.Select(x => (x - middle) / half)], [.. t.Select(x => (x - middle) * (x - middle) / (half * half))]];
        columns = t.Length < 8 ? columns[..2] : columns;
        Fit fit = LinearFit.Solve(columns, v);
        double[] p = fit.Parameters.Length == 3 ? fit.Parameters : [.. fit.Parameters, 0];
        double x = Root(p, level);
        (double uncertainty, double freedom) = SharedMarks.Of(signal.Between(t[0], t[^1]), fit, p.Length == columns.Length ? [1, x, x * x] : [1, x], columns);
        return Measured.Of(middle + half * x, new Input("speed readings", 0, half * uncertainty / Math.Abs(p[1] + 2 * p[2] * x), freedom));
    }

    // By Newton's rule from the line's root; a level beyond the stretch stays at its edge.
    private static double Root(double[] p, double level)
    {
        double x = Math.Clamp((level - p[0]) / p[1], -1, 1);
        for (int i = 0; i < 20; i++)
        {
            double slope = p[1] + 2 * p[2] * x;
            if (slope == 0)
                break;
            x = Math.Clamp(x - (p[0] + x * (p[1] + x * p[2]) - level) / slope, -1.2, 1.2);
        }

        return x;
    }
}

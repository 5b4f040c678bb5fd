using RigControl.Analysis.Fitting;

namespace RigControl.Analysis.Traces;

/// <summary>Finds repeats from the speed alone: where it leaves rest, and where it begins its fall from the level that it had reached.</summary>
internal static class SpeedSegments
{
    // Shares of the highest speed: below the first the rotor rests, above the second it runs.
    private const double Resting = 0.02;
    private const double Running = 0.3;

    public static IReadOnlyList<Segment> Of(Series speed, double end)
    {
        List<Segment> segments = [];
        double top = speed.Values.Max();
        if (!(top > 0))
            return segments;
        for (int i = 0; i < speed.Count;)
        {
            int first = NextAbove(speed, i, Running * top);
            if (first < 0)
                break;
            int after = NextBelow(speed, first, Resting * top);
            int next = after < 0 ? -1 : NextAbove(speed, after, Running * top);
            segments.Add(One(speed, segments.Count + 1, i, first, after < 0 ? speed.Count : after, next < 0 ? end : speed.Times[LeavesRest(speed, after, next, top)]));
            i = after < 0 ? speed.Count : after;
        }

        return segments;
    }

    private static Segment One(Series speed, int repeat, int before, int first, int after, double end)
    {
        int leaves = LeavesRest(speed, before, first, speed.Values.Max());
        bool seen = leaves > before && leaves > 0;
        (double release, double step) = Fall(speed, leaves, after);
        double hold = SegmentFinder.Settled(speed.Between(speed.Times[leaves], double.IsNaN(release) ? speed.Times[after - 1] : release));
        // Where the trace begins with the rotor running down there was no hold to see.
        bool held = !double.IsNaN(hold) && (seen || hold < release - 0.1 * (end - release));
        return new Segment(repeat, seen ? speed.Times[leaves] : double.NaN, held ? hold : double.NaN, release, end)
        {
            RiseStep = seen ? speed.Times[leaves] - speed.Times[leaves - 1] : 0, ReleaseStep = step,
        };
    }

    // The last sample at rest is the one before it.
    private static int LeavesRest(Series speed, int from, int running, double top)
    {
        int i = running;
        while (i > from && speed.Values[i - 1] > Resting * top)
            i--;
        return i;
    }

    // The fall is drawn back, from two levels below, to the level that it began at.
    private static (double At, double Step) Fall(Series speed, int first, int after)
    {
        Series part = speed.Between(speed.Times[first], speed.Times[Math.Min(after, speed.Count - 1)]);
        double high = part.Values.Max();
        double level = Summary.Median([.. part.Values.Where(v => v > 0.9 * high)]);
        if (part.Values[^1] > 0.8 * level)
            return (double.NaN, 0);
        double upper = LastAbove(part, 0.97 * level), lower = LastAbove(part, 0.9 * level);
        double back = upper - (lower - upper) * 0.03 / 0.07;
        double fromTop = LastAbove(part, 0.97 * high) - (LastAbove(part, 0.9 * high) - LastAbove(part, 0.97 * high)) * 0.03 / 0.07;
        // A trace that begins in the fall has no level to draw back to.
        if (fromTop <= part.Times[0] + (part.Times[1] - part.Times[0]))
            return (part.Times[0], 0);
        back = Math.Max(part.Times[0], back);
        return (back, Math.Max(0, upper - back));
    }

    private static double LastAbove(Series part, double level)
    {
        int i = part.Count - 1;
        while (i > 0 && part.Values[i] < level)
            i--;
        return part.Times[i];
    }

    private static int NextAbove(Series speed, int from, double level)
    {
        int i = from;
        while (i < speed.Count && speed.Values[i] <= level)
            i++;
        return i < speed.Count ? i : -1;
    }

    private static int NextBelow(Series speed, int from, double level)
    {
        int i = from;
        while (i < speed.Count && speed.Values[i] > level)
            i++;
        return i < speed.Count ? i : -1;
    }
}

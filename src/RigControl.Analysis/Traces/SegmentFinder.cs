using RigControl.Analysis.Fitting;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Traces;

/// <summary>
/// Finds the repeats of a trace that came without the states of a run: from the demand where output.throttle tells it, else
/// from the rise and fall of the speed.
/// </summary>
public static class SegmentFinder
{
    // Below this share of a percent a throttle is stop: what a pulse's own resolution leaves.
    private const double Demand = 0.05;
    private const double ShortestOn = 0.02;

    // The speed has settled when it stays this close to what it ends at.
    private const double Band = 0.01;

    /// <summary>Repeats in order, and what had to be assumed.</summary>
    public static (IReadOnlyList<Segment> Segments, IReadOnlyList<string> Notes) Of(IReadOnlyDictionary<string, Series> channels)
    {
        Series? throttle = Find(channels, ChannelNames.OutputThrottle), speed = Find(channels, ChannelNames.RotorSpeed);
        double end = EndOf(channels);
        if (throttle is not null && ByDemand(throttle, speed, end) is { Count: > 0 } segments)
            return (segments, []);
        if (speed is null)
            return ([], ["neither output.throttle nor rotor.speed tells when the output was on"]);
        IReadOnlyList<Segment> found = SpeedSegments.Of(speed, end);
        return (found, found.Count == 0 ? ["the rotor never turned"] : ["no output.throttle: rise and stop are taken from the speed, and the controller's own delay is not seen"]);
    }

    /// <summary>
    /// The repeats that a run told, with rise, hold, stop and end taken from its own demand where that was recorded, so that a run and
    /// its exported trace have the same figures.
    /// </summary>
    public static IReadOnlyList<Segment> Refine(IReadOnlyDictionary<string, Series> channels, IReadOnlyList<Segment> told)
    {
        if (Find(channels, ChannelNames.OutputThrottle) is not { } throttle)
            return told;
        List<Segment> seen = ByDemand(throttle, Find(channels, ChannelNames.RotorSpeed), EndOf(channels));
        return [.. told.Select(t => Joined([.. seen.Where(s => Overlap(s, t))]) is { } s ? s with { Repeat = t.Repeat, HoldAt = double.IsNaN(t.HoldAt) || double.IsNaN(s.HoldAt) ? t.HoldAt : s.HoldAt } : t)];
    }

    // At the foot of a ramp a measured pulse flickers about the stop, and a reading may fail in mid-run: the run's states say that the pieces are one.
    private static Segment? Joined(IReadOnlyList<Segment> pieces) => pieces.Count == 0 ? null : pieces[^1] with { RiseAt = pieces[0].RiseAt, RiseStep = pieces[0].RiseStep };

    private static bool Overlap(Segment a, Segment b) => !(Off(a) <= b.RiseAt) && !(Off(b) <= a.RiseAt);

    private static double Off(Segment s) => double.IsNaN(s.ReleaseAt) ? s.EndAt : s.ReleaseAt;

    private static double EndOf(IReadOnlyDictionary<string, Series> channels) => channels.Values.Where(s => s.Count > 0).Select(s => s.Times[^1]).DefaultIfEmpty(0).Max();

    private static Series? Find(IReadOnlyDictionary<string, Series> channels, string name) => channels.GetValueOrDefault(name) is { Count: > 1 } series ? series : null;

    private static List<Segment> ByDemand(Series throttle, Series? speed, double end)
    {
        List<Segment> segments = [];
        for (int i = 0; i < throttle.Count; i++)
        {
            if (Math.Abs(throttle.Values[i]) <= Demand)
                continue;
            int off = i;
            while (off < throttle.Count && Math.Abs(throttle.Values[off]) > Demand)
                off++;
            int next = off;
            while (next < throttle.Count && Math.Abs(throttle.Values[next]) <= Demand)
                next++;
            int foot = FootOf(throttle, i);
            double rise = i == 0 ? double.NaN : throttle.Times[foot];
            double release = off < throttle.Count ? throttle.Times[off] : double.NaN;
            double last = next < throttle.Count ? throttle.Times[next - 1] : end;
            if (throttle.Times[Math.Min(off, throttle.Count - 1)] - throttle.Times[i] >= ShortestOn)
                segments.Add(new Segment(segments.Count + 1, rise, HoldOf(throttle, speed, throttle.Times[i], double.IsNaN(release) ? end : release), release, last)
                {
                    RiseStep = i == 0 ? 0 : throttle.Times[foot] - throttle.Times[foot - 1],
                    ReleaseStep = off < throttle.Count ? throttle.Times[off] - throttle.Times[off - 1] : 0,
                });
            i = off;
        }

        return segments;
    }

    // A slow ramp has left the stop before it can be told from a flicker: it began with the first of the samples that only grow from there.
    private static int FootOf(Series throttle, int risen)
    {
        int foot = risen;
        while (foot > 1 && Math.Abs(throttle.Values[foot - 1]) is > 0 and var before && before < Math.Abs(throttle.Values[foot]))
            foot--;
        return foot;
    }

    /// <summary>When the speed, or else the throttle, came to stay where it ends; not a number where it never did.</summary>
    internal static double HoldOf(Series throttle, Series? speed, double rise, double release)
    {
        double demand = Settled(throttle.Between(rise, release - 1e-9));
        double turning = speed is null ? demand : Settled(speed.Between(rise, release));
        return Math.Max(demand, turning);
    }

    /// <summary>Time after which the values stay within the band around the median of their last fifth.</summary>
    internal static double Settled(Series part)
    {
        if (part.Count < 5)
            return part.Count > 0 ? part.Times[0] : double.NaN;
        double level = Summary.Median(part.Values.AsSpan(part.Count - part.Count / 5 - 1));
        double band = Math.Max(Band * Math.Abs(level), 4 * Speed.SpeedSignal.NoiseOf(part.Values, part.Resolution));
        int i = part.Count - 1;
        // Few readings beyond the band are spikes, many are the rise.
        for (int outside = 0; i >= 0; i--)
        {
            outside = Math.Abs(part.Values[i] - level) > band ? outside + 1 : 0;
            if (outside >= 3)
                return i + 3 < part.Count ? part.Times[i + 3] : double.NaN;
        }

        return part.Times[0];
    }
}

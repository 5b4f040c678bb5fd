using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Traces;

public class SegmentFinderTests
{
    private const double Top = 9000;

    [Fact]
    public void The_demand_tells_rise_and_stop_and_the_speed_tells_the_hold()
    {
        Segment segment = Assert.Single(Find(throttle: true).Segments);
        Near.Absolute(2, segment.RiseAt, 0.021);
        Near.Absolute(10, segment.ReleaseAt, 0.021);
        // Within 1 % after 4.6 time constants of 0.4 s.
        Near.Absolute(2 + 0.4 * Math.Log(100), segment.HoldAt, 0.1);
        Assert.Equal(0.02, segment.RiseStep, 6);
        Assert.Equal(20, segment.EndAt);
    }

    /// <summary>Of 1 % a second, ten samples of a hundredth second pass before the demand can be told from a flicker.</summary>
    [Fact]
    public void A_slow_ramp_rises_from_its_foot_and_not_from_where_it_is_told_from_a_flicker()
    {
        double Ramp(double t) => t < 2.003 ? 0 : t < 10 ? Math.Min(5, t - 2.003) : 0;
        double[] times = [.. Enumerable.Range(0, 1500).Select(i => 0.01 * i)];
        Segment segment = Assert.Single(SegmentFinder.Of(new Dictionary<string, Series> { ["output.throttle"] = new("%", 0, times, [.. times.Select(Ramp)]) }).Segments);
        Assert.InRange(2.003, segment.RiseAt - segment.RiseStep, segment.RiseAt);
        Assert.Equal(0.01, segment.RiseStep, 6);
    }

    [Fact]
    public void Without_a_demand_the_speed_tells_both_and_a_note_says_so()
    {
        (IReadOnlyList<Segment> segments, IReadOnlyList<string> notes) = Find(throttle: false);
        Segment segment = Assert.Single(segments);
        Near.Absolute(2, segment.RiseAt, 0.05);
        Near.Absolute(10, segment.ReleaseAt, 0.05);
        Assert.Contains("output.throttle", Assert.Single(notes), StringComparison.Ordinal);
    }

    [Fact]
    public void Two_rises_are_two_repeats()
    {
        Dictionary<string, Series> channels = new()
        {
            ["rotor.speed"] = Series(t => Speed(t % 20), 40), ["output.throttle"] = Series(t => t % 20 is >= 2 and < 10 ? 60 : 0, 40),
        };
        IReadOnlyList<Segment> segments = SegmentFinder.Of(channels).Segments;
        Assert.Equal([1, 2], segments.Select(s => s.Repeat));
        Near.Absolute(22, segments[1].RiseAt, 0.03);
        Assert.True(segments[0].EndAt <= segments[1].RiseAt);
        channels.Remove("output.throttle");
        Assert.Equal(2, SegmentFinder.Of(channels).Segments.Count);
    }

    [Fact]
    public void A_trace_that_begins_with_the_rotor_running_down_has_no_rise()
    {
        Segment segment = Assert.Single(SegmentFinder.Of(new Dictionary<string, Series> { ["rotor.speed"] = Series(t => Speed(t + 10), 10) }).Segments);
        Assert.True(double.IsNaN(segment.RiseAt));
        Near.Absolute(0, segment.ReleaseAt, 0.1);
    }

    [Fact]
    public void A_trace_without_speed_and_demand_says_what_is_missing() =>
        Assert.Contains("neither", SegmentFinder.Of(new Dictionary<string, Series> { ["battery.voltage"] = Series(_ => 16, 10) }).Notes[0], StringComparison.Ordinal);

    [Fact]
    public void A_rotor_that_never_turned_has_no_repeat()
    {
        (IReadOnlyList<Segment> segments, IReadOnlyList<string> notes) = SegmentFinder.Of(new Dictionary<string, Series> { ["rotor.speed"] = Series(_ => 0, 10) });
        Assert.Empty(segments);
        Assert.Contains("never turned", Assert.Single(notes), StringComparison.Ordinal);
    }

    private static (IReadOnlyList<Segment> Segments, IReadOnlyList<string> Notes) Find(bool throttle)
    {
        SplitMix chance = new(3);
        Dictionary<string, Series> channels = new() { ["rotor.speed"] = Series(t => Speed(t) is > 0 and var v ? v + 5 * chance.Bell() : 0, 20) };
        if (throttle)
            channels["output.throttle"] = Series(t => t is >= 2 and < 10 ? 60 : 0, 20, 0.02);
        return SegmentFinder.Of(channels);
    }

    private static double Speed(double t) => t < 2 ? 0 : t < 10 ? Top * (1 - Math.Exp(-(t - 2) / 0.4)) : Math.Max(0, Top - 1000 * (t - 10));

    private static Series Series(Func<double, double> value, double to, double step = 0.005)
    {
        double[] times = [.. Enumerable.Range(0, (int)Math.Round(to / step) + 1).Select(i => i * step)];
        return new Series("x", 0, times, [.. times.Select(value)]);
    }
}

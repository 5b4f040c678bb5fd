using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Traces;

public class TraceAnalysisTests
{
    private const double Top = 9000, Rise = 2, Stop = 10, Slope = 1000, Constant = 0.4;

    /// <summary>Source: derived; a sample tells only that the change came since the one before it, so half a step is taken off.</summary>
    [Theory]
    [InlineData("spin-up-time", 2.302585 * Constant)]
    [InlineData("coast-down-time", (Top - 60) / Slope)]
    public void Where_the_demand_falls_between_its_samples_moves_a_time_by_no_more_than_it_says_and_not_to_one_side(string name, double truth)
    {
        double sum = 0;
        const int Places = 20;
        for (int k = 0; k < Places; k++)
        {
            double later = 0.02 * (k + 0.5) / Places;
            Figure figure = TraceAnalysis.Of(Channels(later, 0.02), null, 60, null).Figures.Single(f => f.Name == name);
            double off = figure.Value!.Value - truth;
            Near.Absolute(0, off, 0.0105, $"{name}, {later * 1000:0.0} ms late");
            Assert.InRange(figure.StandardUncertainty!.Value, 0.02 / Math.Sqrt(12), 0.01);
            sum += off;
        }

        Near.Absolute(0, sum / Places, 0.001, name);
    }

    [Fact]
    public void The_rise_of_the_next_repeat_does_not_end_the_coast_down_of_this_one()
    {
        Dictionary<string, Series> channels = new()
        {
            ["rotor.speed"] = Series(t => Speed(t % 19.05), 38, 0.005), ["output.throttle"] = Series(t => t % 19.05 is >= Rise and < Stop ? 60 : 0, 38, 0.005),
        };
        Figure[] times = [.. TraceAnalysis.Of(channels, null, 60, null).Figures.Where(f => f.Name == "coast-down-time")];
        Assert.Equal(2, times.Length);
        Assert.All(times, t => Near.Absolute((Top - 60) / Slope, t.Value!.Value, 0.02));
    }

    [Fact]
    public void A_run_and_its_trace_find_the_same_repeats()
    {
        Dictionary<string, Series> channels = Channels(0, 0.005);
        TraceBuilder builder = new([.. channels.Select((c, i) => new Channel(i, c.Key, 0, new ChannelDeclaration
        {
            Name = c.Key, Unit = c.Value.Unit, Minimum = 0, Maximum = 20_000, Period = TimeSpan.FromMilliseconds(5), MaximumAge = TimeSpan.FromMilliseconds(50),
        }))]);
        int channel = 0;
        foreach (Series series in channels.Values)
        {
            for (int i = 0; i < series.Count; i++)
                builder.Add(new Sample((ushort)channel, Quality.Good, TimeSpan.FromSeconds(series.Times[i]), series.Values[i]));
            channel++;
        }

        // The states tell what the trace cannot: which level counts as held. The rest is told by both.
        foreach ((double at, string state) in new[] { (1.99, "SpinUp"), (5, "Hold"), (9.99, "CoastDown"), (19, "Idle") })
            builder.Enter(at, state);
        Segment trace = Assert.Single(SegmentFinder.Of(channels).Segments), run = Assert.Single(builder.Build().Segments);
        Assert.Equal(trace.Repeat, run.Repeat);
        Near.Absolute(trace.RiseAt, run.RiseAt, 1e-6, "rise");
        Near.Absolute(trace.HoldAt, run.HoldAt, 1e-6, "hold");
        Near.Absolute(trace.ReleaseAt, run.ReleaseAt, 1e-6, "stop");
        Near.Absolute(trace.EndAt, run.EndAt, 1e-6, "end");
        Near.Absolute(trace.RiseStep, run.RiseStep, 1e-6, "step before the rise");
    }

    private static Dictionary<string, Series> Channels(double later, double step) => new()
    {
        ["rotor.speed"] = Series(t => Speed(t - later), 22, 0.005), ["output.throttle"] = Series(t => t - later is >= Rise and < Stop ? 60 : 0, 22, step),
    };

    private static double Speed(double t) => t < Rise ? 0 : t < Stop ? Top * (1 - Math.Exp(-(t - Rise) / Constant)) : Math.Max(0, Top - Slope * (t - Stop));

    private static Series Series(Func<double, double> value, double to, double step)
    {
        SplitMix chance = new(8);
        double[] times = [.. Enumerable.Range(0, (int)Math.Round(to / step) + 1).Select(i => i * step)];
        return new Series("rpm", 0, times, [.. times.Select(t => value(t) is var v && v > 100 ? v + chance.Bell() : v)]);
    }
}

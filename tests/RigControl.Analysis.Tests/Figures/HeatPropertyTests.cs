using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>What must hold of every figure of heat, whatever the numbers: a pack that is loaded for four minutes and left to cool for ten.</summary>
public class HeatPropertyTests
{
    private const string Channel = "battery.temperature";
    private const double Limit = 45, AsWide = 0.97;

    private static readonly string[] Names = ["temperature-rise", "thermal-time-constant", "thermal-resistance", "time-to-limit", "continuous-current"];

    private static readonly Dictionary<string, Series> Plain = Record(noise: 1);

    private static readonly IReadOnlyDictionary<string, Figure> OfPlain = All(Plain);

    [Fact]
    public void The_record_gives_all_of_them_with_an_uncertainty() => Assert.All(Names, n => Assert.True(OfPlain[n] is { Value: not null, StandardUncertainty: > 0 }, OfPlain[n].Note ?? n));

    [Theory]
    [InlineData(-3)]
    [InlineData(86_400)]
    public void A_record_that_begins_at_another_time_gives_the_same(double later) => Same(Names, Changed(s => s with { Times = [.. s.Times.Select(t => t + later)] }), 1, 0.2);

    /// <summary>Source: derived; the same warmth at half the heat is twice the resistance to it, and a current is borne in proportion.</summary>
    [Fact]
    public void Half_of_the_current_at_half_of_the_sag_warms_through_four_times_the_resistance()
    {
        Dictionary<string, Series> half = Changed(s => s.Unit == "A" ? s with { Values = [.. s.Values.Select(v => v / 2)] } : s.Unit == "V" ? s with { Values = [.. s.Values.Select(v => 12 - (12 - v) / 2)] } : s);
        Same(["thermal-resistance"], half, 4, 0.05);
        Same(["continuous-current"], half, 0.5, 0.05);
        Same(["time-to-limit", "thermal-time-constant"], half, 1, 0.05);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void Only_every_second_or_third_sample_gives_the_same_within_what_is_known(int each) =>
        Same(Names, Changed(s => s with { Times = Every(each, s.Times), Values = Every(each, s.Values) }), 1, 2.5);

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    public void More_noise_never_narrows_an_interval(double times)
    {
        IReadOnlyDictionary<string, Figure> noisier = All(Record(times));
        Assert.All(Names, n => Assert.True(Width(noisier[n]) >= AsWide * Width(OfPlain[n]), $"{n}: {Width(noisier[n])} is less than {Width(OfPlain[n])}"));
    }

    private static void Same(string[] names, Dictionary<string, Series> changed, double factor, double within)
    {
        IReadOnlyDictionary<string, Figure> all = All(changed);
        Assert.All(names, n =>
        {
            (Figure before, Figure after) = (OfPlain[n], all[n]);
            double allowed = within * Measured.Combine(factor * before.StandardUncertainty!.Value, after.StandardUncertainty!.Value);
            Near.Absolute(factor * before.Value!.Value, after.Value!.Value, allowed + 1e-6 * Math.Abs(after.Value.Value), n);
        });
    }

    private static double Width(Figure figure) => figure.Interval95 is { } i ? i.High - i.Low : double.PositiveInfinity;

    private static IReadOnlyDictionary<string, Figure> All(Dictionary<string, Series> channels)
    {
        FigureInput input = new(new Trace(channels, SegmentFinder.Of(channels).Segments), Articles.Disc, FigureContext.UsualRestSpeed)
        {
            TemperatureLimits = new Dictionary<string, double> { [Channel] = Limit },
        };
        return FigureCatalog.Compute(Names, input).Where(f => f.Method.EndsWith(Channel, StringComparison.Ordinal)).ToDictionary(f => f.Name);
    }

    private static Dictionary<string, Series> Changed(Func<Series, Series> change) => Plain.ToDictionary(c => c.Key, c => change(c.Value));

    private static double[] Every(int each, double[] all) => [.. all.Where((_, i) => i % each == 0)];

    // 40 mOhm under 25 A in a pack of two lumps, on at 10 s and off at 250 s.
    private static Dictionary<string, Series> Record(double noise)
    {
        const double step = 0.1, ohm = 0.04, load = 25, room = 21;
        Physics.Heat heat = new(100, 20, 2, 0.5);
        HeatState state = new(room, room);
        SplitMix chance = new(17);
        int count = (int)(850 / step);
        double[] times = new double[count];
        double[][] values = [.. Enumerable.Range(0, 5).Select(_ => new double[count])];
        for (int i = 0; i < count; i++)
        {
            double now = i * step, current = now is >= 10 and < 250 ? load : 0.05;
            state.Advance(heat, ohm * current * current, 0, room, step);
            times[i] = now + step;
            double[] read =
            [
                current > 1 ? 60 : 0, 12 - ohm * current + noise * 0.005 * chance.Bell(), current + noise * 0.05 * chance.Bell(),
                state.Inner + noise * 0.1 * chance.Bell(), room + noise * 0.1 * chance.Bell(),
            ];
            for (int c = 0; c < read.Length; c++)
                values[c][i] = read[c];
        }

        return new Dictionary<string, Series>
        {
            ["output.throttle"] = new("%", 0, times, values[0]), ["battery.voltage"] = new("V", 0, times, values[1]), ["battery.current"] = new("A", 0, times, values[2]),
            [Channel] = new("degC", 0, times, values[3]), ["ambient.temperature"] = new("degC", 0, times, values[4]),
        };
    }
}

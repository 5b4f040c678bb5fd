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
    private const double Limit = 45;

    private static readonly string[] Names = ["temperature-rise", "thermal-time-constant", "thermal-resistance", "time-to-limit", "continuous-current"];

    private static readonly FigureProperties OfPack = new(Record(noise: 1), Names, All);

    [Fact]
    public void The_record_gives_all_of_them_with_an_uncertainty() => OfPack.AreAllThere();

    [Theory]
    [InlineData(-3)]
    [InlineData(86_400)]
    public void A_record_that_begins_at_another_time_gives_the_same(double later) => OfPack.Same(OfPack.Later(later), 0.2);

    /// <summary>Source: derived; half of the current is a quarter of the heat, so that the same warmth needs four times the resistance to it.</summary>
    [Fact]
    public void Half_of_the_current_at_half_of_the_sag_warms_through_four_times_the_resistance()
    {
        Dictionary<string, Series> half = OfPack.Changed(s => s.Unit == "A" ? s with { Values = [.. s.Values.Select(v => v / 2)] } : s.Unit == "V" ? s with { Values = [.. s.Values.Select(v => 12 - (12 - v) / 2)] } : s);
        OfPack.Same(["thermal-resistance"], half, 4, 0.05);
        OfPack.Same(["continuous-current"], half, 0.5, 0.05);
        OfPack.Same(["time-to-limit", "thermal-time-constant"], half, 1, 0.05);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void Only_every_second_or_third_sample_gives_the_same_within_what_is_known(int each) => OfPack.Same(OfPack.Every(each), 2.5);

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    public void More_noise_never_narrows_an_interval(double times) => OfPack.NeverNarrower(Record(times));

    private static IEnumerable<Figure> All(Dictionary<string, Series> channels)
    {
        FigureInput input = new(new Trace(channels, SegmentFinder.Of(channels).Segments), Articles.Disc, FigureContext.UsualRestSpeed)
        {
            TemperatureLimits = new Dictionary<string, double> { [Channel] = Limit },
        };
        return FigureCatalog.Compute(Names, input).Where(f => f.Method.EndsWith(Channel, StringComparison.Ordinal));
    }

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

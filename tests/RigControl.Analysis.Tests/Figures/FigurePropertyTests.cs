using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>What must hold of every figure, whatever the numbers: on a run of the modelled bench with sensors that scatter.</summary>
public class FigurePropertyTests
{
    private static readonly string[] Names =
    [
        "spin-up-time", "steady-speed", "peak-speed", "tip-speed", "stored-energy", "coast-down-time", "drag-constant", "mean-current",
        "peak-current", "minimum-voltage", "peak-power", "charge-used", "energy-used", "battery-share", "pack-resistance",
    ];

    private static readonly string[] OfCurrent = ["mean-current", "peak-current", "charge-used", "energy-used", "battery-share", "peak-power"];

    private static readonly Dictionary<string, Series> Plain = Record(noise: 1);

    [Fact]
    public void The_bench_gives_all_of_them_with_an_uncertainty() => Assert.All(Names, n => Assert.True(Of(Plain, n) is { Value: not null, StandardUncertainty: > 0 }, Of(Plain, n).Note ?? n));

    [Theory]
    [InlineData(-0.5)]
    [InlineData(86_400)]
    public void A_record_that_begins_at_another_time_gives_the_same(double later) => Same(Names, Changed(s => s with { Times = [.. s.Times.Select(t => t + later)] }), 1, 0.2);

    [Fact]
    public void Twice_the_current_gives_twice_of_what_is_proportional_to_it_and_twice_its_uncertainty()
    {
        Dictionary<string, Series> twice = Changed(s => s.Unit == "A" ? s with { Values = [.. s.Values.Select(v => 2 * v)], Resolution = 2 * s.Resolution } : s);
        Same(OfCurrent, twice, 2, 1e-6);
        Assert.All(OfCurrent, n => Near.Relative(2 * Of(Plain, n).StandardUncertainty!.Value, Of(twice, n).StandardUncertainty!.Value, 1e-6, n));
    }

    [Fact]
    public void Every_second_sample_gives_the_same_within_what_is_known() => Same(Names, Changed(s => s with { Times = Half(s.Times), Values = Half(s.Values) }), 1, 2.5);

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    public void More_noise_never_narrows_an_interval(double times)
    {
        Dictionary<string, Series> noisier = Record(times);
        Assert.All(Names, n => Assert.True(Width(Of(noisier, n)) >= Width(Of(Plain, n)), $"{n}: {Width(Of(noisier, n))} is less than {Width(Of(Plain, n))}"));
    }

    // Within a number of the uncertainties of both.
    private static void Same(string[] names, Dictionary<string, Series> changed, double factor, double within) => Assert.All(names, n =>
    {
        (Figure before, Figure after) = (Of(Plain, n), Of(changed, n));
        double allowed = within * Measured.Combine(factor * before.StandardUncertainty!.Value, after.StandardUncertainty!.Value);
        Near.Absolute(factor * before.Value!.Value, after.Value!.Value, allowed + 1e-9 * Math.Abs(after.Value.Value), n);
    });

    private static double Width(Figure figure) => figure.Interval95 is { } i ? i.High - i.Low : double.PositiveInfinity;

    private static Figure Of(Dictionary<string, Series> channels, string name) =>
        FigureCatalog.Compute([name], new FigureInput(new Trace(channels, SegmentFinder.Of(channels).Segments), Articles.Disc, FigureContext.UsualRestSpeed)).Single();

    private static Dictionary<string, Series> Changed(Func<Series, Series> change) => Plain.ToDictionary(c => c.Key, c => change(c.Value));

    private static double[] Half(double[] all) => [.. all.Where((_, i) => i % 2 == 0)];

    // The disc of the school workshop: a second at rest, up to 60 %, held, and let go.
    private static Dictionary<string, Series> Record(double noise)
    {
        const double step = 0.004;
        BenchParameters parameters = new() { Rotor = new Rotor(2.2e-4, 0.05, new Drag(0.006, 2e-6, 1e-8, 0.006), 0) };
        Bench bench = new(parameters, 3);
        SplitMix chance = new(11);
        int count = (int)(30 / step);
        double[] times = new double[count];
        double[][] values = [.. Enumerable.Range(0, 4).Select(_ => new double[count])];
        for (int i = 0; i < count; i++)
        {
            double now = i * step, demand = now is < 2 or > 8 ? 0 : 0.6 * Math.Min(1, now - 2 + step);
            bench.Step(step, new BenchDrive(1000 + 1000 * demand, true, false));
            times[i] = now + step;
            // A reader of many marks, whose every reading is fresh; at rest it does not scatter.
            double speed = bench.Truth.Speed * 30 / Math.PI;
            double[] read = [speed + (speed > 0 ? noise * 4 * chance.Bell() : 0), 100 * demand, bench.Truth.PackVoltage + noise * 0.01 * chance.Bell(), bench.Truth.PackCurrent + noise * 0.05 * chance.Bell()];
            for (int c = 0; c < read.Length; c++)
                values[c][i] = read[c];
        }

        return new Dictionary<string, Series>
        {
            ["rotor.speed"] = new("rpm", 0, times, values[0]), ["output.throttle"] = new("%", 0, times, values[1]),
            ["battery.voltage"] = new("V", 0, times, values[2]), ["battery.current"] = new("A", 0, times, values[3]),
        };
    }
}

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
        "spin-up-time", "time-constant", "steady-speed", "peak-speed", "tip-speed", "stored-energy", "coast-down-time", "speed-after", "energy-after",
        "drag-constant", "drag-linear", "drag-quadratic", "mean-current", "peak-current", "minimum-voltage", "peak-voltage", "peak-power", "charge-used", "energy-used",
        "battery-share", "pack-resistance", "motor-kv", "winding-resistance", "peak-torque", "peak-mechanical-power", "best-efficiency",
    ];

    private static readonly string[] OfCurrent = ["mean-current", "peak-current", "charge-used", "energy-used", "battery-share", "peak-power"];

    // By how much less a width may be told without being less: a scatter is itself known from so many readings only.
    private const double AsWide = 0.97;

    private static readonly Dictionary<string, Series> Plain = Record(noise: 1);

    private static readonly IReadOnlyDictionary<string, Figure> OfPlain = All(Plain);

    [Fact]
    public void The_bench_gives_all_of_them_with_an_uncertainty() => Assert.All(Names, n => Assert.True(OfPlain[n] is { Value: not null, StandardUncertainty: > 0 }, OfPlain[n].Note ?? n));

    [Theory]
    [InlineData(-0.5)]
    [InlineData(86_400)]
    public void A_record_that_begins_at_another_time_gives_the_same(double later) => Same(Names, Changed(s => s with { Times = [.. s.Times.Select(t => t + later)] }), 1, 0.2);

    [Fact]
    public void Twice_the_current_gives_twice_of_what_is_proportional_to_it_and_twice_its_uncertainty()
    {
        Dictionary<string, Series> twice = Changed(s => s.Unit == "A" ? s with { Values = [.. s.Values.Select(v => 2 * v)], Resolution = 2 * s.Resolution } : s);
        Same(OfCurrent, twice, 2, 1e-6);
        Assert.All(OfCurrent, n => Near.Relative(2 * OfPlain[n].StandardUncertainty!.Value, All(twice)[n].StandardUncertainty!.Value, 1e-6, n));
    }

    /// <summary>Source: derived; voltage and current both doubled leave every resistance and the efficiency, double the voltage of a speed, and give four times the power.</summary>
    [Fact]
    public void Twice_the_current_at_twice_the_voltage_leaves_resistances_and_efficiency_as_they_are()
    {
        Dictionary<string, Series> twice = Changed(s => s.Unit is "A" or "V" ? s with { Values = [.. s.Values.Select(v => 2 * v)] } : s);
        Same(["pack-resistance", "winding-resistance"], twice, 1, 0.01);
        Same(["motor-kv"], twice, 0.5, 0.01);
        Same(["best-efficiency"], twice, 0.25, 0.01);
        Same(["peak-power", "energy-used"], twice, 4, 0.01);
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

    // Within a number of the uncertainties of both.
    private static void Same(string[] names, Dictionary<string, Series> changed, double factor, double within)
    {
        IReadOnlyDictionary<string, Figure> all = All(changed);
        Assert.All(names, n =>
        {
            (Figure before, Figure after) = (OfPlain[n], all[n]);
            double allowed = within * Measured.Combine(factor * before.StandardUncertainty!.Value, after.StandardUncertainty!.Value);
            Near.Absolute(factor * before.Value!.Value, after.Value!.Value, allowed + 1e-9 * Math.Abs(after.Value.Value), n);
        });
    }

    private static double Width(Figure figure) => figure.Interval95 is { } i ? i.High - i.Low : double.PositiveInfinity;

    private static IReadOnlyDictionary<string, Figure> All(Dictionary<string, Series> channels)
    {
        FigureInput input = new(new Trace(channels, SegmentFinder.Of(channels).Segments), Articles.Disc, FigureContext.UsualRestSpeed) { After = 2 };
        return FigureCatalog.Compute(Names, input).ToDictionary(f => f.Name);
    }

    private static Dictionary<string, Series> Changed(Func<Series, Series> change) => Plain.ToDictionary(c => c.Key, c => change(c.Value));

    private static double[] Every(int each, double[] all) => [.. all.Where((_, i) => i % each == 0)];

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

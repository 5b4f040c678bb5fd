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

    private static readonly FigureProperties OnBench = new(Record(noise: 1), Names, All);

    [Fact]
    public void The_bench_gives_all_of_them_with_an_uncertainty() => OnBench.AreAllThere();

    [Theory]
    [InlineData(-0.5)]
    [InlineData(86_400)]
    public void A_record_that_begins_at_another_time_gives_the_same(double later) => OnBench.Same(OnBench.Later(later), 0.2);

    [Fact]
    public void Twice_the_current_gives_twice_of_what_is_proportional_to_it_and_twice_its_uncertainty()
    {
        Dictionary<string, Series> twice = OnBench.Changed(s => s.Unit == "A" ? s with { Values = [.. s.Values.Select(v => 2 * v)], Resolution = 2 * s.Resolution } : s);
        OnBench.Same(OfCurrent, twice, 2, 1e-6);
        IReadOnlyDictionary<string, Figure> all = OnBench.Of(twice);
        Assert.All(OfCurrent, n => Near.Relative(2 * OnBench.Plain[n].StandardUncertainty!.Value, all[n].StandardUncertainty!.Value, 1e-6, n));
    }

    /// <summary>Source: derived; a resistance is volts over amperes, Kv speed over volts, power volts times amperes, and the shaft's power does not change.</summary>
    [Fact]
    public void Twice_the_current_at_twice_the_voltage_leaves_resistances_halves_the_speed_of_a_volt_and_is_four_times_the_power()
    {
        Dictionary<string, Series> twice = OnBench.Changed(s => s.Unit is "A" or "V" ? s with { Values = [.. s.Values.Select(v => 2 * v)] } : s);
        OnBench.Same(["pack-resistance", "winding-resistance"], twice, 1, 0.01);
        OnBench.Same(["motor-kv"], twice, 0.5, 0.01);
        OnBench.Same(["best-efficiency"], twice, 0.25, 0.01);
        OnBench.Same(["peak-power", "energy-used"], twice, 4, 0.01);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void Only_every_second_or_third_sample_gives_the_same_within_what_is_known(int each) => OnBench.Same(OnBench.Every(each), 2.5);

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    public void More_noise_never_narrows_an_interval(double times) => OnBench.NeverNarrower(Record(times));

    private static IReadOnlyList<Figure> All(Dictionary<string, Series> channels) =>
        FigureCatalog.Compute(Names, new FigureInput(new Trace(channels, SegmentFinder.Of(channels).Segments), Articles.Disc, FigureContext.UsualRestSpeed) { Asked = new AskedAt { After = 2 } });

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

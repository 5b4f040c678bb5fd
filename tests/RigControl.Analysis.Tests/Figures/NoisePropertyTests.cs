using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>A tachometer that holds its reading until the next mark, whose marks are seen early or late by more and more.</summary>
public class NoisePropertyTests
{
    private static readonly string[] Names = ["steady-speed", "coast-down-time", "drag-constant", "drag-linear", "drag-quadratic", "peak-speed", "tip-speed", "stored-energy"];

    public static TheoryData<ulong> Seeds => [.. Enumerable.Range(1, 200).Select(i => (ulong)i)];

    [Theory, MemberData(nameof(Seeds))]
    public void Marks_seen_less_well_never_narrow_an_interval(ulong seed)
    {
        Dictionary<string, double> before = Names.ToDictionary(n => n, _ => 0.0);
        List<string> narrowed = [];
        foreach (double jitter in new[] { 2e-6, 8e-6, 32e-6, 128e-6 })
        {
            foreach (Figure figure in Figures(seed, jitter))
            {
                double width = FigureProperties.Width(figure);
                if (!FigureProperties.IsAsWide(width, before[figure.Name]))
                    narrowed.Add($"{figure.Name} {width:G4} at {jitter * 1e6} us, {before[figure.Name]:G4} at a quarter of it");
                before[figure.Name] = width;
            }
        }

        Assert.True(narrowed.Count == 0, $"seed {seed}: {string.Join("; ", narrowed)}");
    }

    private static IReadOnlyList<Figure> Figures(ulong seed, double jitter)
    {
        Dictionary<string, Series> channels = Record(seed, jitter);
        return FigureCatalog.Compute(Names, new FigureInput(new Trace(channels, SegmentFinder.Of(channels).Segments), Articles.Disc, FigureContext.UsualRestSpeed));
    }

    // A second at rest, up to a level, held, and let go; drag, level and marks as the seed draws them. The same marks are seen off by the same
    // share of the jitter, however large it is.
    private static Dictionary<string, Series> Record(ulong seed, double jitter)
    {
        const double step = 0.005;
        SplitMix chance = new(seed * 101 + 7);
        double rest = chance.Uniform(0.003, 0.01), level = chance.Uniform(0.35, 0.7);
        BenchParameters parameters = new()
        {
            Rotor = new Rotor(2.2e-4, 0.05, new Drag(rest, chance.Uniform(0.5e-6, 6e-6), chance.Uniform(0.5e-8, 2e-8), rest), 0),
            Tachometer = new Tachometer((int)chance.Uniform(1, 3.999), 0.5e-6, jitter),
        };
        Bench bench = new(parameters, seed);
        int count = (int)(40 / step);
        double[] times = new double[count], speed = new double[count], throttle = new double[count];
        for (int i = 0; i < count; i++)
        {
            double now = i * step, demand = now is < 1 or > 6 ? 0 : level * Math.Min(1, now - 1 + step);
            bench.Step(step, new BenchDrive(1000 + 1000 * demand, true, false));
            (times[i], speed[i], throttle[i]) = (now + step, bench.Tachometer.Speed(parameters.Tachometer) * 30 / Math.PI, 100 * demand);
        }

        return new Dictionary<string, Series> { ["rotor.speed"] = new("rpm", 0.1, times, [.. speed.Select(v => 0.1 * Math.Round(10 * v))]), ["output.throttle"] = new("%", 0, times, throttle) };
    }
}

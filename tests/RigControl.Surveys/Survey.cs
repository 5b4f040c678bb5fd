using System.Collections.Concurrent;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Surveys;

/// <summary>Many simulated runs on all cores, and how often their intervals hold the truth.</summary>
public static class Survey
{
    /// <summary>Runs from seed <paramref name="first"/> on; one tally per figure, in order of name.</summary>
    /// <param name="onMiss">Hears every figure whose interval misses by more than twice its width, with its seed; from any thread.</param>
    public static IReadOnlyList<Tally> Of(ulong first, int count, Action<string>? onMiss = null)
    {
        ConcurrentDictionary<string, Tally> tallies = new();
        Parallel.For(0, count, i =>
        {
            foreach ((string name, Figure? figure, double truth) in One(first + (ulong)i))
            {
                tallies.GetOrAdd(name, n => new Tally(n)).Add(figure, truth);
                if (figure is { Value: { } v, Interval95: { } x } && Math.Abs(v - truth) > 2 * (x.High - x.Low))
                    onMiss?.Invoke($"seed {first + (ulong)i}: {name} {v:G6} [{x.Low:G6}, {x.High:G6}], true {truth:G6}");
            }
        });
        return [.. tallies.Values.OrderBy(t => t.Name, StringComparer.Ordinal)];
    }

    // To a motor that is taken for bare, its rotor's drag is its own.
    private const string NoLoad = "no-load-current";

    private static IEnumerable<(string Name, Figure? Figure, double Truth)> One(ulong seed)
    {
        SimulatedRun run = new(Plan.Of(seed));
        Segment segment = SegmentFinder.Of(run.Channels).Segments.Single();
        Dictionary<string, double> truth = new RunTruth(run, segment).All();
        FigureInput input = new(new Trace(run.Channels, [segment]), ArticleOf(run.Plan), FigureContext.UsualRestSpeed) { Asked = RunTruth.Asked };
        IReadOnlyList<Figure> figures = FigureCatalog.Compute([.. truth.Keys], input);
        Figure? alone = FigureCatalog.Compute([NoLoad], input with { Article = input.Article! with { Rotor = null } }).FirstOrDefault();
        return [.. truth.Select(t => (t.Key, figures.FirstOrDefault(f => f.Name == t.Key), t.Value)), (NoLoad, alone, RunTruth.Held(run, segment)), StallRun.Of(run.Plan), MotorHeatRun.Of(seed), AddedRun.Of(run), .. HandRun.Of(seed), .. new HeatRun(seed).Figures()];
    }

    // As a builder would declare what was weighed and measured exactly.
    private static Article ArticleOf(Plan plan) => new()
    {
        Name = "simulated",
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer, BrakesAtStop = false,
            WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(1),
        },
        Rotor = new Rotor(plan.Bench.Rotor.Inertia, plan.Bench.Rotor.TipRadius, 0.2, 20_000),
        Motor = new Motor(plan.Bench.Motor.SpeedConstant, plan.Bench.Motor.Resistance, plan.Bench.Motor.NoLoadCurrent, plan.Bench.Controller.CurrentLimit),
        Pack = new Pack(plan.Bench.Pack.Cells, "LiPo", plan.Bench.Pack.Capacity / 3600, plan.Bench.Pack.Resistance),
        StoppingTime = TimeSpan.FromSeconds(1), LongestCoastDown = TimeSpan.FromSeconds(60), MaximumRise = 1,
    };
}

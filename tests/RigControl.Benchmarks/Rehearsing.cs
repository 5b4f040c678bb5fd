using System.Diagnostics;
using System.Globalization;
using RigControl.Kernel;
using RigControl.Physics;
using RigControl.Rehearsal;
using RigControl.Rehearsal.Bench;
using RigControl.Rehearsal.Results;
using RigControl.Runtime.Rigs;

namespace RigControl.Benchmarks;

/// <summary>A rehearsal of five hundred benches, beside the same benches driven for as long with no kernel, interlock or figure around them.</summary>
internal static class Rehearsing
{
    private const int Rounds = 3;
    private const ulong Seed = 1;

    // About 30 s from the reset to a rotor that stands; the row says what it came to.
    private const string HalfAMinute = """
        procedure: half-a-minute
        repeat: 1
        requires: [lid-closed]
        steps:
          - arm: { within: 10 s }
          - spin-up: { throttle: 60 %, ramp: 2 s, until: { channel: rotor.speed, steady-within: 1 %, for: 0.5 s }, timeout: 8 s }
          - hold: { for: 8.5 s }
          - coast-down: { until: { channel: rotor.speed, below: 60 rpm }, timeout: 60 s }
        figures: [spin-up-time, steady-speed, tip-speed, stored-energy, peak-current, charge-used, coast-down-time]
        """;

    public static IEnumerable<Row> Measure()
    {
        RehearsalPlan plan = Plan(SampleRig.Documents(HalfAMinute));
        RehearsalResult result = Rehearser.Rehearse(plan, Rehearser.UsualSamples, Seed);
        (double wall, double processor, double alone) = (double.MaxValue, double.MaxValue, double.MaxValue);
        for (int i = 0; i < Rounds; i++)
        {
            double began = Processor();
            wall = Math.Min(wall, Seconds(() => Rehearser.Rehearse(plan, Rehearser.UsualSamples, Seed)));
            processor = Math.Min(processor, Processor() - began);
            alone = Math.Min(alone, Seconds(() => BenchesAlone(plan, result.Seconds)));
        }

        yield return new Row(
            string.Create(CultureInfo.InvariantCulture, $"rehearsal of {result.Samples} samples of a run of {result.Seconds:0.0} s, {plan.Configuration.InterlockCount} interlocks, {result.Figures.Count} figures"),
            string.Create(CultureInfo.InvariantCulture, $"{wall:0.00} s, {processor:0.00} s of processor time"),
            string.Create(CultureInfo.InvariantCulture, $"the modelled benches alone, on as many cores: {alone:0.00} s"),
            string.Create(CultureInfo.InvariantCulture, $"{wall / alone:0.0}"));
    }

    private static RehearsalPlan Plan(RigDocuments documents)
    {
        var (interlocks, _) = new RigAssembler(SampleRig.Catalog, TimeProvider.System).Bind(documents, RehearsalPlan.Channels(documents.Rig));
        return RehearsalPlan.Of(documents.Rig, documents.Article, documents.Procedure, interlocks, []);
    }

    private static void BenchesAlone(RehearsalPlan plan, double seconds) => Parallel.For(0, Rehearser.UsualSamples, i =>
    {
        Physics.Bench bench = new(BenchDraw.Draw(plan.Likely, plan.Spread, (ulong)i), (ulong)i);
        double period = plan.Configuration.ScanPeriod.TotalSeconds;
        for (double now = 0; now < seconds; now += period)
            bench.Step(period, new BenchDrive(now is < 3 or > 15 ? 1000 : 1600, true, false));
    });

    private static double Seconds(Action action)
    {
        long began = Stopwatch.GetTimestamp();
        action();
        return Stopwatch.GetElapsedTime(began).TotalSeconds;
    }

    private static double Processor() => Process.GetCurrentProcess().TotalProcessorTime.TotalSeconds;
}

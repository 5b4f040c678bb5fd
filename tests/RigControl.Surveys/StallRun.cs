using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>The bench of a plan with its rotor held, under a low level for a second and a bit.</summary>
internal static class StallRun
{
    private const double On = 1.2;

    // Above what a stall is looked at for, after the first third, in which the current settles.
    private static readonly (double From, double To) Looked = (1.0 / 3, 1);

    /// <summary>The stall current with its truth: the mean while it is looked at, since the winding warms.</summary>
    public static (string Name, Figure? Figure, double Truth) Of(Plan plan)
    {
        SplitMix chance = new(plan.Seed * 17 + 3);
        double level = chance.Uniform(0.06, 0.15), sum = 0;
        int count = 0;
        Sensor[] sensors =
        [
            new(ChannelNames.RotorSpeed, "rpm", plan.SpeedPeriod, new SensorNoise(0, plan.SpeedStep, 0, 0)),
            new(ChannelNames.OutputThrottle, "%", plan.SpeedPeriod, default) { Loses = false },
            new(ChannelNames.BatteryCurrent, "A", plan.PackPeriod, new SensorNoise(plan.Noise.Current, 0.01, 0, 0)),
        ];
        Bench bench = new(plan.Bench with { JamTorque = 50 }, plan.Seed);
        bench.Faults.RotorJammed = true;
        for (double now = 0; now < plan.Rise + On + 1; now += SimulatedRun.Step)
        {
            double demand = now < plan.Rise || now >= plan.Rise + On ? 0 : level;
            bench.Step(SimulatedRun.Step, new BenchDrive(1000 + 1000 * demand, true, false));
            double[] truth = [bench.Tachometer.Speed(bench.Parameters.Tachometer) / Plan.RpmToRadPerSecond, 100 * demand, bench.Truth.PackCurrent];
            for (int k = 0; k < sensors.Length; k++)
                sensors[k].Watch(k == 1 ? now : now + SimulatedRun.Step, truth[k], ref chance);
            if (now - plan.Rise >= Looked.From && now - plan.Rise < Looked.To)
                (sum, count) = (sum + bench.Truth.PackCurrent, count + 1);
        }

        Dictionary<string, Series> channels = sensors.ToDictionary(s => s.Name, s => s.Build());
        FigureInput input = new(new Trace(channels, SegmentFinder.Of(channels).Segments), null, FigureContext.UsualRestSpeed);
        return ("stall-current", FigureCatalog.Compute(["stall-current"], input).FirstOrDefault(), sum / count);
    }
}

using RigControl.Analysis.Traces;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>A run on the bench, once as the sensors recorded it and once as it really was.</summary>
internal sealed class SimulatedRun
{
    /// <summary>Of the truth, s.</summary>
    public const double Step = 0.001;

    private const double LongestCoastDown = 60;

    // A tachometer sees rest late.
    private const double Lead = 3;

    private readonly List<TruthAt> _truth = [];
    private readonly Dictionary<string, Series> _channels = [];

    public SimulatedRun(Plan plan)
    {
        Plan = plan;
        Bench bench = new(plan.Bench, plan.Seed);
        SplitMix chance = new(plan.Seed * 31 + 5);
        Sensor[] sensors = Sensors(plan, ref chance);
        SpeedController controller = plan.Bench.Controller;
        double end = double.PositiveInfinity;
        for (int i = 0; ; i++)
        {
            double now = i * Step;
            // Above stop from the first moment, as a ramp's first step is.
            double demand = now < plan.Rise || now >= plan.Stop ? 0 : plan.Level * Math.Clamp((now - plan.Rise) / plan.Ramp, 0.001, 1);
            double pulse = controller.StopPulse + demand * (controller.MaximumPulse - controller.StopPulse);
            bench.Step(Step, new BenchDrive(pulse, true, false));
            _truth.Add(new TruthAt(now + Step, bench.Truth));
            Record(sensors, bench, now + Step, demand, ref chance);
            end = now > plan.Stop && bench.Truth.Speed > 0 ? now + Lead : end;
            if (now > end || now > plan.Stop + LongestCoastDown)
                break;
        }

        foreach (Sensor sensor in sensors)
            _channels[sensor.Name] = sensor.Build();
    }

    public Plan Plan { get; }

    /// <summary>As recorded.</summary>
    public IReadOnlyDictionary<string, Series> Channels => _channels;

    /// <summary>As it was, every millisecond.</summary>
    public IReadOnlyList<TruthAt> Truth => _truth;

    private static Sensor[] Sensors(Plan plan, ref SplitMix chance)
    {
        // A gap within the hold: what happens inside the rise or at the stop cannot be seen by anybody.
        double gap = plan.Rise + 0.6 * plan.On + 0.2 * plan.On * chance.Uniform();
        double length = chance.Uniform(0.05, 0.2);
        return
        [
            new Sensor(ChannelNames.RotorSpeed, "rpm", plan.SpeedPeriod, new SensorNoise(0, plan.SpeedStep, 0, 0)) { GapAt = gap, GapLength = length },
            new Sensor(ChannelNames.OutputThrottle, "%", plan.SpeedPeriod, new SensorNoise(0, 0, 0, 0)) { Loses = false },
            new Sensor(ChannelNames.BatteryVoltage, "V", plan.PackPeriod, new SensorNoise(plan.Noise.Voltage, 0.004, 0, 0)) { GapAt = gap, GapLength = length },
            new Sensor(ChannelNames.BatteryCurrent, "A", plan.PackPeriod, new SensorNoise(plan.Noise.Current, 0.01, 0, 0)) { GapAt = gap, GapLength = length },
            new Sensor(ChannelNames.MotorTemperature, "degC", 0.2, new SensorNoise(plan.Noise.Temperature, 0.1, 0, 0)),
        ];
    }

    private static void Record(Sensor[] sensors, Bench bench, double now, double demand, ref SplitMix chance)
    {
        BenchTruth truth = bench.Truth;
        double rpm = bench.Tachometer.Speed(bench.Parameters.Tachometer) / Plan.RpmToRadPerSecond;
        sensors[0].Watch(now, rpm, ref chance);
        // The demand stands from the beginning of the step, the rest at its end.
        sensors[1].Watch(now - Step, 100 * demand, ref chance);
        sensors[2].Watch(now, truth.PackVoltage, ref chance);
        sensors[3].Watch(now, truth.PackCurrent, ref chance);
        sensors[4].Watch(now, truth.CaseTemperature, ref chance);
    }
}

/// <summary>What was really so at a moment, s.</summary>
internal readonly record struct TruthAt(double Time, BenchTruth Truth);

using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Support;

/// <summary>
/// A run of the modelled bench, recorded 200 times a second beside what was really so: stop for 1.5 s, a ramp of 0.3 s to a level, a hold until
/// 5 s, a run-down. The voltage scatters by 3 mV and the current by 50 mA.
/// </summary>
internal sealed class BenchRecord
{
    public const double Period = 0.005, Rise = 1.5, Ramp = 0.3, Stop = 5;

    private readonly List<(double Time, double Throttle, double Read, BenchTruth Truth)> _seen = [];

    public BenchRecord(BenchParameters parameters, double level = 0.6, ulong seed = 5, double until = 40)
    {
        Parameters = parameters;
        Bench bench = new(parameters, seed);
        for (int i = 0; i < until / Period; i++)
        {
            double now = i * Period, demand = now < Rise || now > Stop ? 0 : level * Math.Clamp((now - Rise + Period) / Ramp, 0, 1);
            bench.Step(Period, new BenchDrive(1000 + 1000 * demand, true, false));
            _seen.Add((now + Period, 100 * demand, bench.Tachometer.Speed(parameters.Tachometer) * 30 / Math.PI, bench.Truth));
        }
    }

    public BenchParameters Parameters { get; }

    /// <summary>The disc with a controller that lets it run down, its data as the bench has them.</summary>
    public Article Declared => Articles.Disc with
    {
        Controller = new ControllerProfile
        {
            Mode = Model.Rig.ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer, BrakesAtStop = false,
            WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(1),
        },
        Rotor = new Model.Rig.Rotor(Parameters.Rotor.Inertia, Parameters.Rotor.TipRadius, 0.18, 20_000),
        Motor = new Model.Rig.Motor(Parameters.Motor.SpeedConstant, Parameters.Motor.Resistance, Parameters.Motor.NoLoadCurrent, Parameters.Controller.CurrentLimit),
        Pack = new Model.Rig.Pack(Parameters.Pack.Cells, "LiPo", Parameters.Pack.Capacity / 3600, Parameters.Pack.Resistance),
    };

    /// <summary>What was really so, every 5 ms.</summary>
    public IEnumerable<BenchTruth> Truth => _seen.Select(s => s.Truth);

    /// <summary>First moment from the demand on at which something is so for good, s after the demand.</summary>
    public double SinceDemand(Func<BenchTruth, bool> soForGood, double until)
    {
        double last = _seen.Where(s => s.Time <= until && !soForGood(s.Truth)).Max(s => s.Time);
        return last + Period / 2 - Rise;
    }

    public Dictionary<string, Series> Channels()
    {
        SplitMix chance = new(77);
        double[] times = [.. _seen.Select(s => s.Time)];
        return new Dictionary<string, Series>
        {
            ["rotor.speed"] = new("rpm", 0.1, times, [.. _seen.Select(s => 0.1 * Math.Round(10 * s.Read))]),
            ["output.throttle"] = new("%", 0, [.. _seen.Select(s => s.Time - Period)], [.. _seen.Select(s => s.Throttle)]),
            ["battery.voltage"] = new("V", 0, times, [.. _seen.Select(s => s.Truth.PackVoltage + 0.003 * chance.Bell())]),
            ["battery.current"] = new("A", 0, times, [.. _seen.Select(s => s.Truth.PackCurrent + 0.05 * chance.Bell())]),
        };
    }

    public FigureInput Input(AskedAt? asked = null)
    {
        Dictionary<string, Series> channels = Channels();
        return new FigureInput(new Trace(channels, SegmentFinder.Of(channels).Segments), Declared, FigureContext.UsualRestSpeed) { Asked = asked ?? AskedAt.Nothing };
    }

    public Figure Figure(string name, AskedAt? asked = null) => FigureCatalog.Compute([name], Input(asked)).Single();
}

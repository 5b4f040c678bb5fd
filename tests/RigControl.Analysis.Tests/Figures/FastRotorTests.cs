using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>
/// Rotors at the edge of what people run: wheels at 5,000 rpm, weapons of insect-class robots at 14,000 rpm, and where optical hand
/// tachometers end, at 99,000 rpm (common practice, no source). One mark a turn, timed to half a microsecond, recorded 200 times a second:
/// at 99,000 rpm eight turns pass between two samples, and a step of the timer is a tenth of a percent.
/// </summary>
public class FastRotorTests
{
    private const double Period = 0.005, Rise = 1.5, Stop = 5.5, Level = 0.8;

    // No air: the drag is a polynomial, by whose size the rotor comes to rest within the record.
    private static readonly (double Rpm, double Inertia)[] Rotors = [(5_000, 2e-4), (14_000, 2e-5), (99_000, 1e-6)];

    public static TheoryData<int, string> Cases =>
        [.. from rotor in Enumerable.Range(0, Rotors.Length) from name in new[] { "steady-speed", "peak-speed", "coast-down-time", "drag-constant" } select (rotor, name)];

    [Theory, MemberData(nameof(Cases))]
    public void A_figure_holds_its_truth_at_any_speed_that_is_run(int rotor, string name)
    {
        (Dictionary<string, Series> channels, Dictionary<string, double> truth) = Record(rotor);
        Figure figure = FigureCatalog.Compute([name], new FigureInput(new Trace(channels, SegmentFinder.Of(channels).Segments), Declared(rotor), FigureContext.UsualRestSpeed)).Single();
        Assert.True(figure.Value is not null, figure.Note);
        Assert.InRange(truth["steady-speed"], 0.95 * Rotors[rotor].Rpm, 1.05 * Rotors[rotor].Rpm);
        Near.Absolute(truth[name], figure.Value.Value, 4 * figure.StandardUncertainty!.Value, name);
        Assert.InRange(figure.StandardUncertainty.Value / truth[name], 0, 0.02);
    }

    private static RigControl.Model.Rig.Article Declared(int rotor) =>
        Articles.Disc with { Rotor = new RigControl.Model.Rig.Rotor(Rotors[rotor].Inertia, TipRadius: 0.03, Mass: 0.05, MaximumSpeed: 120_000) };

    private static (Dictionary<string, Series> Channels, Dictionary<string, double> Truth) Record(int rotor)
    {
        BenchParameters parameters = Bench(rotor);
        Bench bench = new(parameters, seed: 5);
        List<(double Time, double Speed, double Throttle, double True)> seen = [];
        for (int i = 0; i < 40 / Period; i++)
        {
            double now = i * Period, demand = now < Rise || now > Stop ? 0 : Level * Math.Min(1, now - Rise + Period);
            bench.Step(Period, new BenchDrive(1000 + 1000 * demand, true, false));
            seen.Add((now + Period, bench.Tachometer.Speed(parameters.Tachometer) * 30 / Math.PI, 100 * demand, bench.Truth.Speed * 30 / Math.PI));
        }

        double[] times = [.. seen.Select(s => s.Time)];
        Dictionary<string, Series> channels = new()
        {
            ["rotor.speed"] = new("rpm", 0.1, times, [.. seen.Select(s => 0.1 * Math.Round(10 * s.Speed))]), ["output.throttle"] = new("%", 0, times, [.. seen.Select(s => s.Throttle)]),
        };
        Segment repeat = SegmentFinder.Of(channels).Segments.Single();
        return (channels, new Dictionary<string, double>
        {
            ["steady-speed"] = seen.Where(s => s.Time > 0.5 * (repeat.HoldAt + repeat.ReleaseAt) && s.Time <= repeat.ReleaseAt).Average(s => s.True), ["peak-speed"] = seen.Max(s => s.True),
            ["coast-down-time"] = seen.First(s => s.Time > Stop + 1 && s.True < FigureContext.UsualRestSpeed).Time - Period / 2 - repeat.ReleaseAt,
            ["drag-constant"] = parameters.Rotor.Drag.Constant + parameters.Motor.TorqueConstant * parameters.Motor.NoLoadCurrent,
        });
    }

    private static BenchParameters Bench(int rotor)
    {
        (double rpm, double inertia) = Rotors[rotor];
        double full = rpm * Math.PI / 30, drag = inertia * full / 20;
        return new()
        {
            Rotor = new Rotor(inertia, 0.03, new Drag(drag, drag / full, 0, drag), 0),
            Motor = new Motor(rpm / (Level * 12.3), 0.1, 0.02),
            Controller = new SpeedController { Deadband = 0 },
        };
    }
}

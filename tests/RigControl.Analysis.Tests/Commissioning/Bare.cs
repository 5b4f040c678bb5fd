using RigControl.Analysis.Commissioning;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Tests.Commissioning;

/// <summary>A motor alone on a controller whose true range is known: power at 1 s, a ramp from 5 s to 45 s, let go at 50 s.</summary>
internal sealed record Bare
{
    public const double RampTime = 40;

    public double Stop { get; init; } = 1000;

    public double Maximum { get; init; } = 2000;

    public double Minimum { get; init; } = 1000;

    public PulseDirection Direction { get; init; } = PulseDirection.Longer;

    /// <summary>Furthest pulse of the ramp, us.</summary>
    public double Furthest { get; init; } = 2000;

    /// <summary>True distance from stop at which it begins to turn, us.</summary>
    public double Begins { get; init; } = 40;

    /// <summary>True distance from stop beyond which it gains nothing, us.</summary>
    public double Ends { get; init; } = 1000;

    /// <summary>Speed at the end of the range, rpm.</summary>
    public double Top { get; init; } = 12000;

    /// <summary>Speed before anything was asked for, rpm.</summary>
    public double Creep { get; init; }

    public int Repeats { get; init; } = 1;

    /// <summary>Amplitude of the tachometer's scatter, rpm.</summary>
    public double Scatter { get; init; }

    public double[] Marks { get; init; } = [];

    public Dictionary<string, string> Answers { get; init; } = [];

    public bool Brakes { get; init; }

    public double ArmingTime { get; init; } = 2;

    public Finding Say(string key) => Assert.Single(Run().Findings(), f => f.Key == key);

    public RotorOffRun Run()
    {
        Random random = new(20261126);
        double period = 60;
        MadeTrace made = new MadeTrace()
            .Channel(ChannelNames.OutputPulse, "us", t => Pulse(t % period), to: period * Repeats, step: 0.01, resolution: 0.5)
            .Channel(ChannelNames.RotorSpeed, "rpm", t => Speed(t % period) + (Speed(t % period) > 0 ? Scatter * (2 * random.NextDouble() - 1) : 0), to: period * Repeats, step: 0.02)
            .Channel(ChannelNames.BatteryVoltage, "V", _ => 12.5, to: period * Repeats, step: 0.1);
        for (int i = 0; i < Repeats; i++)
            made.Repeat(5 + i * period, 5 + RampTime + i * period, 50 + i * period, 59 + i * period);
        ControllerProfile controller = new()
        {
            Mode = ControllerMode.OneWay, StopPulse = Stop, MinimumPulse = Minimum, MaximumPulse = Maximum, Direction = Direction,
            BrakesAtStop = Brakes, WhenPulsesCease = CeasedPulseBehaviour.Unknown, ArmingTime = TimeSpan.FromSeconds(ArmingTime),
        };
        return new RotorOffRun(made.Build(), Articles.MotorAlone with { Controller = controller }, 1, Marks, Answers);
    }

    private double Pulse(double t) => t is < 5 or > 50 ? Stop : Stop + (Furthest - Stop) * Math.Min(1, (t - 5) / RampTime);

    private double Speed(double t)
    {
        double away = Math.Abs(Pulse(t) - Stop);
        return t is > 1 and < 5 ? Creep : away <= Begins ? 0 : Top * Math.Min(1, away / Ends);
    }
}

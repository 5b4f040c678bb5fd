using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>
/// A motor that one held level warms for minutes and that cools after it, its speed kept: winding and case of the bench, whose resistance
/// grows with the winding. Its article declares resistance and no-load current to a few per cent, and says so; the sensor sits on the case.
/// </summary>
internal static class MotorHeatRun
{
    private const double Step = 0.1, Idle = 0.05;

    // Relative standard uncertainty of what is declared.
    private const double ResistanceKnown = 0.03, NoLoadKnown = 0.1;

    /// <summary>The thermal resistance of the case to the surroundings with its truth: all heat leaves by the case.</summary>
    public static (string Name, Figure? Figure, double Truth) Of(ulong seed)
    {
        SplitMix chance = new(seed * 4099 + 7);
        double room = chance.Uniform(10, 30), perWatt = 1 / chance.Uniform(0.2, 0.6);
        Heat heat = new(chance.Uniform(4, 20), chance.Uniform(30, 80), chance.Uniform(0.8, 3), 1 / perWatt);
        Physics.Motor motor = new(chance.Uniform(700, 1200), chance.Uniform(0.04, 0.12), chance.Uniform(0.5, 1.5));
        double level = chance.Uniform(0.35, 0.8), winding = chance.Uniform(6, 14), rpm = level * 10.5 * motor.SpeedConstant;
        double rise = chance.Uniform(5, 15), stop = rise + chance.Uniform(150, 400), end = stop + chance.Uniform(300, 900);
        double noise = chance.Uniform(0.05, 0.3);
        Sensor[] sensors =
        [
            new(ChannelNames.OutputThrottle, "%", Step, default) { Loses = false },
            new(ChannelNames.RotorSpeed, "rpm", Step, new SensorNoise(0, 1, 0, 0)),
            new(ChannelNames.BatteryCurrent, "A", Step, new SensorNoise(0.05, 0.01, 0, 0)),
            new(ChannelNames.MotorTemperature, "degC", 1, new SensorNoise(noise, 0.1, 0, 0)),
            new(ChannelNames.AmbientTemperature, "degC", 1, new SensorNoise(noise, 0.1, 0, 0)),
        ];
        HeatState state = new(room, room);
        for (int i = 0; i * Step < end; i++)
        {
            double now = i * Step;
            bool on = now >= rise && now < stop;
            double[] truth = [on ? 100 * level : 0, on ? rpm : 0, on ? winding * level + Idle : Idle, state.Outer, room];
            for (int k = 0; k < sensors.Length; k++)
                sensors[k].Watch(now, truth[k], ref chance);
            state.Advance(heat, on ? motor.ResistanceAt(state.Inner) * winding * winding : 0, on ? motor.NoLoadCurrent * rpm / motor.SpeedConstant : 0, room, Step);
        }

        Dictionary<string, Series> channels = sensors.ToDictionary(s => s.Name, s => s.Build());
        FigureInput input = new(new Trace(channels, SegmentFinder.Of(channels).Segments), Declared(motor, ref chance), FigureContext.UsualRestSpeed);
        Figure? figure = FigureCatalog.Compute(["thermal-resistance"], input).FirstOrDefault(f => f.Method.EndsWith(ChannelNames.MotorTemperature, StringComparison.Ordinal));
        return ("thermal-resistance (motor)", figure, perWatt);
    }

    private static Article Declared(Physics.Motor motor, ref SplitMix chance)
    {
        double resistance = motor.Resistance * (1 + ResistanceKnown * chance.Bell()), noLoad = motor.NoLoadCurrent * (1 + NoLoadKnown * chance.Bell());
        return new Article
        {
            Name = "simulated",
            Controller = new ControllerProfile
            {
                Mode = Model.Rig.ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer, BrakesAtStop = false,
                WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(1),
            },
            Motor = new Model.Rig.Motor(motor.SpeedConstant, resistance, noLoad, 60),
            Uncertainty = new Dictionary<string, double> { ["winding-resistance"] = ResistanceKnown, ["no-load-current"] = NoLoadKnown },
            StoppingTime = TimeSpan.FromSeconds(1), LongestCoastDown = TimeSpan.FromSeconds(60), MaximumRise = 1,
        };
    }
}

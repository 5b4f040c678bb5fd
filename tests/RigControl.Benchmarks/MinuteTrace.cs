using RigControl.Analysis.Traces;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Benchmarks;

/// <summary>A minute of sixteen channels at 1 kHz: rest, rise, hold, coast-down and cooling, as a rig would record them.</summary>
internal static class MinuteTrace
{
    public const double Inertia = 2e-4;
    private const double Rise = 2, Ramp = 1, Stop = 25, Length = 60;

    /// <summary>Temperatures of parts that a current warms.</summary>
    public static IReadOnlyList<string> Warm { get; } = [ChannelNames.MotorTemperature, ChannelNames.ControllerTemperature, ChannelNames.BatteryTemperature];

    public static Dictionary<string, Series> Make()
    {
        SplitMix chance = new(1);
        BenchParameters parameters = new() { Rotor = new Rotor(Inertia, 0.045, new Drag(0.004, 2e-6, 1e-8, 0.004), 0) };
        Bench bench = new(parameters, 1);
        int count = (int)(Length * 1000);
        double[] times = new double[count];
        double[][] values = [.. Enumerable.Range(0, 16).Select(_ => new double[count])];
        for (int i = 0; i < count; i++)
        {
            double now = i * 0.001, demand = now < Rise || now >= Stop ? 0 : 0.6 * Math.Min(1, (now - Rise + 0.001) / Ramp);
            bench.Step(0.001, new BenchDrive(1000 + 1000 * demand, true, false));
            times[i] = now + 0.001;
            BenchTruth t = bench.Truth;
            double[] truth =
            [
                Math.Round(bench.Tachometer.Speed(parameters.Tachometer) * 300 / Math.PI) / 10, 100 * demand, t.PackVoltage, t.PackCurrent,
                t.CaseTemperature, t.ControllerTemperature, t.PackTemperature, t.AmbientTemperature,
            ];
            double[] noise = [0, 0, 0.01, 0.05, 0.1, 0.1, 0.1, 0.1];
            for (int c = 0; c < 16; c++)
                values[c][i] = c < 8 ? truth[c] + (noise[c] > 0 ? noise[c] * chance.Bell() : 0) : chance.Bell();
        }

        string[] names =
        [
            ChannelNames.RotorSpeed, ChannelNames.OutputThrottle, ChannelNames.BatteryVoltage, ChannelNames.BatteryCurrent,
            ChannelNames.MotorTemperature, ChannelNames.ControllerTemperature, ChannelNames.BatteryTemperature, ChannelNames.AmbientTemperature,
        ];
        string[] units = ["rpm", "%", "V", "A", "degC", "degC", "degC", "degC"];
        return Enumerable.Range(0, 16).ToDictionary(c => c < 8 ? names[c] : $"other.{c}", c => new Series(c < 8 ? units[c] : "1", 0, times, values[c]));
    }
}

using RigControl.Model.Signals;

namespace RigControl.Rehearsal.Bench;

/// <summary>What the model supplies, as a rig's devices and its host would. Without noise: what varies is the bench, not the reading.</summary>
internal static class BenchChannels
{
    public const int Speed = 0;
    public const int Voltage = 1;
    public const int Current = 2;
    public const int Throttle = 3;
    public const int Pulse = 4;
    public const int SecondPulse = 5;
    public const int ReceiverPulse = 6;
    public const int Power = 7;
    public const int Lid = 8;
    public const int LidOpen = 9;
    public const int Lock = 10;
    public const int Stop = 11;
    public const int Radio = 12;
    public const int MotorHeat = 13;
    public const int ControllerHeat = 14;
    public const int BatteryHeat = 15;
    public const int AmbientHeat = 16;
    public const int Confirmed = 17;
    public const int Present = 18;
    public const int Backlog = 19;
    public const int Lateness = 20;

    private static readonly (string Name, string Unit, double Minimum, double Maximum, double Resolution)[] Table =
    [
        (ChannelNames.RotorSpeed, "rpm", 0, 200_000, 0.1), (ChannelNames.BatteryVoltage, "V", 0, 200, 0.001),
        (ChannelNames.BatteryCurrent, "A", -1000, 1000, 0.01), (ChannelNames.OutputThrottle, "%", -100, 100, 0.01),
        (ChannelNames.OutputPulse, "us", 0, 2500, 0.1), (ChannelNames.SecondPulse, "us", 0, 2500, 0.1), (ChannelNames.ReceiverPulse, "us", 0, 2500, 0.1),
        (ChannelNames.OutputPower, "1", 0, 1, 1), (ChannelNames.EnclosureLid, "1", 0, 1, 1), (ChannelNames.EnclosureLidOpen, "1", 0, 1, 1),
        (ChannelNames.EnclosureLock, "1", 0, 1, 1), (ChannelNames.StopClear, "1", 0, 1, 1), (ChannelNames.RadioLink, "1", 0, 1, 1),
        (ChannelNames.MotorTemperature, "degC", -60, 500, 0.1), (ChannelNames.ControllerTemperature, "degC", -60, 500, 0.1),
        (ChannelNames.BatteryTemperature, "degC", -60, 500, 0.1), (ChannelNames.AmbientTemperature, "degC", -60, 500, 0.1),
        (ChannelNames.FailsafeConfirmed, "1", 0, 1, 1), (ChannelNames.OperatorPresent, "1", 0, 1, 1),
        (ChannelNames.RecorderBacklog, "%", 0, 100, 0.1), (ChannelNames.ScanLateness, "ms", 0, 1e6, 0.001),
    ];

    /// <summary>In the order of the input image.</summary>
    public static IReadOnlyList<Channel> Declare(TimeSpan scanPeriod) => [.. Table.Select((c, i) => new Channel(i, c.Name, 0, new ChannelDeclaration
    {
        Name = c.Name, Unit = c.Unit, Minimum = c.Minimum, Maximum = c.Maximum, Resolution = c.Resolution,
        Period = scanPeriod, MaximumAge = scanPeriod * 5,
    }))];
}

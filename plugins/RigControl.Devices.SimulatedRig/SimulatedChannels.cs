using RigControl.Model.Signals;

namespace RigControl.Devices.SimulatedRig;

/// <summary>The channels of a simulated rig; the constants are their places.</summary>
internal static class SimulatedChannels
{
    public const int Speed = 0;
    public const int Voltage = 1;
    public const int Current = 2;
    public const int Throttle = 3;
    public const int Pulse = 4;
    public const int Power = 5;
    public const int Lid = 6;
    public const int LidOpen = 7;
    public const int Bolt = 8;
    public const int Stop = 9;
    public const int Radio = 10;
    public const int ReceiverPulse = 11;
    public const int SecondPulse = 12;
    public const int MotorHeat = 13;
    public const int ControllerHeat = 14;
    public const int BatteryHeat = 15;
    public const int AmbientHeat = 16;

    /// <summary>Time between samples of contacts and outputs that do not change; a change is told at once.</summary>
    public static readonly TimeSpan ContactPeriod = TimeSpan.FromMilliseconds(20);

    /// <summary>Time between samples of temperatures, which change over seconds.</summary>
    public static readonly TimeSpan TemperaturePeriod = TimeSpan.FromMilliseconds(100);

    /// <summary>Identical readings in a row that the noise of voltage and current does not give, not once in the life of a bench.</summary>
    public const int FrozenAfter = 100;

    public static IReadOnlyList<ChannelDeclaration> Declare(TimeSpan scanPeriod) =>
    [
        Make(ChannelNames.RotorSpeed, "rpm", 0, 200_000, 0.1, scanPeriod),
        Make(ChannelNames.BatteryVoltage, "V", 0, 100, 0.001, scanPeriod) with { FrozenAfter = FrozenAfter },
        Make(ChannelNames.BatteryCurrent, "A", -500, 500, 0.01, scanPeriod) with { FrozenAfter = FrozenAfter },
        Make(ChannelNames.OutputThrottle, "%", -100, 100, 0.01, ContactPeriod),
        Make(ChannelNames.OutputPulse, "us", 0, 2500, 0.1, ContactPeriod),
        Contact(ChannelNames.OutputPower),
        Contact(ChannelNames.EnclosureLid),
        Contact(ChannelNames.EnclosureLidOpen),
        Contact(ChannelNames.EnclosureLock),
        Contact(ChannelNames.StopClear),
        Contact(ChannelNames.RadioLink),
        Make(ChannelNames.ReceiverPulse, "us", 0, 2500, 0.5, ContactPeriod),
        Make(ChannelNames.SecondPulse, "us", 0, 2500, 0.1, ContactPeriod),
        Temperature(ChannelNames.MotorTemperature),
        Temperature(ChannelNames.ControllerTemperature),
        Temperature(ChannelNames.BatteryTemperature),
        Temperature(ChannelNames.AmbientTemperature),
    ];

    private static ChannelDeclaration Contact(string name) => Make(name, "1", 0, 1, 1, ContactPeriod);

    private static ChannelDeclaration Temperature(string name) => Make(name, "degC", -40, 300, 0.1, TemperaturePeriod);

    private static ChannelDeclaration Make(string name, string unit, double minimum, double maximum, double resolution, TimeSpan period) => new()
    {
        Name = name, Unit = unit, Minimum = minimum, Maximum = maximum, Resolution = resolution, Period = period, MaximumAge = period * 5,
    };
}

using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Readings;

/// <summary>The channels of a rig board; the constants are their places.</summary>
internal static class BoardChannels
{
    public const int Voltage = 0;
    public const int Current = 1;
    public const int MotorHeat = 2;
    public const int ControllerHeat = 3;
    public const int Throttle = 4;
    public const int Pulse = 5;
    public const int Power = 6;
    public const int Lid = 7;
    public const int LidOpen = 8;
    public const int Bolt = 9;
    public const int Stop = 10;
    public const int Radio = 11;
    public const int Key = 12;
    public const int Latched = 13;
    public const int Receipt = 14;
    public const int Digest = 15;
    public const int Nonce = 16;
    public const int Errors = 17;
    public const int ReceiverPulse = 18;
    public const int SecondPulse = 19;
    public const int Doubt = 20;

    /// <summary>The last place, so that a rig without tachometer simply lacks it.</summary>
    public const int Speed = 21;

    /// <summary>Time between two status lines, as the line protocol has it.</summary>
    public static readonly TimeSpan Frame = TimeSpan.FromMilliseconds(5);

    /// <summary>Time between samples of what does not change; a change is told at once.</summary>
    public static readonly TimeSpan SlowPeriod = TimeSpan.FromMilliseconds(20);

    /// <summary>Age at which a reading is no longer believed: ten lines lost in a row, the silence after which the board itself calls the host's echo too old.</summary>
    private static readonly TimeSpan FastAge = Frame * 10;

    // Five missed readings: a contact may be missed now and then, and is never believed for long.
    private static readonly TimeSpan SlowAge = SlowPeriod * 5;

    /// <param name="options">Scales, and whether there is a tachometer.</param>
    public static IReadOnlyList<ChannelDeclaration> Declare(RigBoardOptions options)
    {
        double current = options.CurrentFullScale;
        List<ChannelDeclaration> channels =
        [
            Fast(ChannelNames.BatteryVoltage, "V", 0, options.VoltageFullScale, 0.001),
            Fast(ChannelNames.BatteryCurrent, "A", -current, current, 0.001),
            Slow(ChannelNames.MotorTemperature, "degC", -55, 300, 0.1),
            Slow(ChannelNames.ControllerTemperature, "degC", -55, 300, 0.1),
            Slow(ChannelNames.OutputThrottle, "%", -120, 120, 0.01),
            Slow(ChannelNames.OutputPulse, "us", 0, 65535, 1),
            Slow(ChannelNames.OutputPower, "1", 0, 1, 1),
            Slow(ChannelNames.EnclosureLid, "1", 0, 1, 1),
            Slow(ChannelNames.EnclosureLidOpen, "1", 0, 1, 1),
            Slow(ChannelNames.EnclosureLock, "1", 0, 1, 1),
            Slow(ChannelNames.StopClear, "1", 0, 1, 1),
            Slow(ChannelNames.RadioLink, "1", 0, 1, 1),
            Slow(ChannelNames.ArmKey, "1", 0, 1, 1),
            Slow("board.latched", "1", 0, ushort.MaxValue, 1),
            Slow("board.receipt", "1", 0, ushort.MaxValue, 1),
            Slow("board.digest", "1", 0, ushort.MaxValue, 1),
            Slow("board.nonce", "1", 0, ushort.MaxValue, 1),
            Slow("board.errors", "1", 0, int.MaxValue, 1),
            Slow(ChannelNames.ReceiverPulse, "us", 0, 2500, 1),
            Slow(ChannelNames.SecondPulse, "us", 0, 2500, 1),
            Slow("board.speed-doubt", "1", 0, (int)SpeedDoubt.Lost, 1),
        ];
        if (options.Tachometer)
            channels.Add(Fast(ChannelNames.RotorSpeed, "rpm", 0, 200_000, 0.1));
        return channels;
    }

    private static ChannelDeclaration Fast(string name, string unit, double minimum, double maximum, double resolution) =>
        Make(name, unit, minimum, maximum, resolution, Frame, FastAge);

    private static ChannelDeclaration Slow(string name, string unit, double minimum, double maximum, double resolution) =>
        Make(name, unit, minimum, maximum, resolution, SlowPeriod, SlowAge);

    private static ChannelDeclaration Make(
        string name, string unit, double minimum, double maximum, double resolution, TimeSpan period, TimeSpan age) => new()
    {
        Name = name, Unit = unit, Minimum = minimum, Maximum = maximum, Resolution = resolution, Period = period, MaximumAge = age,
    };
}

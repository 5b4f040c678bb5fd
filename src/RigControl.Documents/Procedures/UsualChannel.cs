using RigControl.Model.Signals;

namespace RigControl.Documents.Procedures;

/// <summary>What is known of a usual channel before any device is opened.</summary>
/// <param name="Unit">The unit it is declared in.</param>
/// <param name="Lowest">It cannot be below, by its nature: a condition that waits for it would wait for ever.</param>
/// <param name="Highest">It cannot be above, by its nature.</param>
internal sealed record UsualChannel(string Unit, double Lowest = double.NegativeInfinity, double Highest = double.PositiveInfinity)
{
    private const double AbsoluteZero = -273.15; // degC, by definition of the scale

    private static readonly UsualChannel TwoValued = new("1", 0, 1);
    private static readonly UsualChannel Temperature = new("degC", AbsoluteZero);

    private static readonly Dictionary<string, UsualChannel> ByName = new()
    {
        [ChannelNames.RotorSpeed] = new("rpm", 0),
        [ChannelNames.OutputThrottle] = new("%", -100, 100),
        [ChannelNames.OutputPulse] = new("us", 0),
        [ChannelNames.OutputPower] = TwoValued,
        [ChannelNames.BatteryVoltage] = new("V"),
        [ChannelNames.BatteryCurrent] = new("A"),
        [ChannelNames.BatteryTemperature] = Temperature,
        [ChannelNames.MotorTemperature] = Temperature,
        [ChannelNames.ControllerTemperature] = Temperature,
        [ChannelNames.AmbientTemperature] = Temperature,
        [ChannelNames.Vibration] = new("m/s2"),
        [ChannelNames.EnclosureLid] = TwoValued,
        [ChannelNames.EnclosureLidOpen] = TwoValued,
        [ChannelNames.EnclosureLock] = TwoValued,
        [ChannelNames.StopClear] = TwoValued,
        [ChannelNames.RadioLink] = TwoValued,
        [ChannelNames.FailsafeConfirmed] = TwoValued,
        [ChannelNames.OperatorPresent] = TwoValued,
        [ChannelNames.RecorderBacklog] = new("%", 0),
        [ChannelNames.ScanLateness] = new("ms"),
    };

    /// <summary>Null for a channel of another name: any unit may then be written.</summary>
    public static UsualChannel? Find(string name) => ByName.GetValueOrDefault(name);
}

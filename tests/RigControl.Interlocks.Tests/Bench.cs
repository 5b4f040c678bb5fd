using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

/// <summary>One interlock with the channels of a small rig, scanned by hand. What a test does not say reads well.</summary>
internal sealed class Bench
{
    public static readonly IInterlockPlugin[] Plugins =
    [
        new LidClosedPlugin(), new LidLockedPlugin(), new StopClearPlugin(), new FailsafeConfirmedPlugin(), new TemperatureCeilingPlugin(),
        new OverSpeedPlugin(), new OverCurrentPlugin(), new UnderVoltagePlugin(), new StaleReadingPlugin(),
    ];

    public static readonly Channel[] Channels =
    [
        Declare(0, ChannelNames.EnclosureLid, "1", 0, 1), Declare(1, ChannelNames.EnclosureLidOpen, "1", 0, 1),
        Declare(2, ChannelNames.EnclosureLock, "1", 0, 1), Declare(3, ChannelNames.StopClear, "1", 0, 1),
        Declare(4, ChannelNames.FailsafeConfirmed, "1", 0, 1), Declare(5, ChannelNames.MotorTemperature, "degC", -40, 300),
        Declare(6, ChannelNames.RotorSpeed, "rpm", -20_000, 20_000), Declare(7, ChannelNames.BatteryCurrent, "A", -200, 200),
        Declare(8, ChannelNames.BatteryVoltage, "V", 0, 60), Declare(9, ChannelNames.RadioLink, "1", 0, 1),
    ];

    public InputImage Image;
    public InterlockMemory Memory;

    public Bench(IInterlockPlugin plugin, object options, DemandAction action = DemandAction.CutPower)
    {
        Interlock = plugin.Create(options, ContextFor(plugin.Kind, action));
        foreach ((string name, double value) in Usual)
            Set(name, value);
    }

    /// <summary>Readings of a closed, locked, confirmed rig whose rotor stands.</summary>
    public static IEnumerable<(string Name, double Value)> Usual =>
    [
        (ChannelNames.EnclosureLid, 1), (ChannelNames.EnclosureLidOpen, 0), (ChannelNames.EnclosureLock, 1), (ChannelNames.StopClear, 1),
        (ChannelNames.FailsafeConfirmed, 1), (ChannelNames.MotorTemperature, 20), (ChannelNames.RotorSpeed, 0),
        (ChannelNames.BatteryCurrent, 0), (ChannelNames.BatteryVoltage, 12), (ChannelNames.RadioLink, 1),
    ];

    public IInterlock Interlock { get; }

    public RigState State { get; set; } = RigState.Hold;

    public TimeSpan Now { get; private set; } = Seconds(10);

    public static TimeSpan Seconds(double seconds) => TimeSpan.FromSeconds(seconds);

    public static int Index(string channel) => Channels.Single(c => c.Name == channel).Index;

    public static InterlockContext ContextFor(string id, DemandAction action = DemandAction.CutPower, Rotor? rotor = null) => new()
    {
        Id = id, Action = action, Article = Disc(rotor), Channels = Channels,
    };

    /// <summary>Options with every required one filled in, wide enough to let the usual readings pass.</summary>
    public static object GoodOptions(IInterlockPlugin plugin) => plugin.Kind switch
    {
        "temperature-ceiling" => new TemperatureCeilingOptions { Ceiling = 80, Rise = 10, Window = 1 },
        "over-speed" => new OverSpeedOptions { Limit = 9000 },
        "over-current" => new OverCurrentOptions { Limit = 60, Peak = 100 },
        "under-voltage" => new UnderVoltageOptions { Limit = 9 },
        "stale-reading" => new StaleReadingOptions { Channel = ChannelNames.RadioLink, MaximumAge = 0.2 },
        _ => Activator.CreateInstance(plugin.OptionsType)!,
    };

    /// <summary>A fresh reading, taken 2 ms before the scan.</summary>
    public Bench Set(string channel, double value, Quality quality = Quality.Good) => Spread(channel, value, value, value, quality);

    /// <summary>Several readings since the last scan: the lowest 3 ms, the highest 4 ms before it.</summary>
    public Bench Spread(string channel, double last, double minimum, double maximum, Quality quality = Quality.Good)
    {
        Image[Index(channel)] = new ImageEntry
        {
            Last = last, Minimum = minimum, Maximum = maximum, Age = Seconds(0.002), Count = 3, Cause = BadCause.None, Quality = quality,
            MinimumAt = Now - Seconds(minimum == maximum ? 0.002 : 0.003), MaximumAt = Now - Seconds(minimum == maximum ? 0.002 : 0.004),
        };
        return this;
    }

    /// <summary>A reading that the fold called Bad.</summary>
    public Bench Bad(string channel, BadCause cause)
    {
        ref ImageEntry entry = ref Image[Index(channel)];
        (entry.Quality, entry.Cause) = (Quality.Bad, cause);
        return this;
    }

    public Demand Scan() => Interlock.Evaluate(new InterlockInput(Image, Now, State, 0, TimeSpan.Zero, 0), ref Memory);

    /// <summary>Lets time pass, gives the channel a new reading and scans.</summary>
    public Demand ScanAfter(double seconds, string channel, double value)
    {
        Now += Seconds(seconds);
        return Set(channel, value).Scan();
    }

    public string Sentence() => Interlock.Explain(Scan());

    private static Channel Declare(int index, string name, string unit, double minimum, double maximum) => new(index, name, 0, new ChannelDeclaration
    {
        Name = name, Unit = unit, Minimum = minimum, Maximum = maximum,
        Period = TimeSpan.FromMilliseconds(5), MaximumAge = TimeSpan.FromMilliseconds(100), FrozenAfter = 400,
    });

    private static Article Disc(Rotor? rotor) => new()
    {
        Name = "disc-180", Rotor = rotor, StoppingTime = Seconds(1), LongestCoastDown = Seconds(60), MaximumRise = 1,
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = false, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = Seconds(2),
        },
    };
}

using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

/// <summary>One interlock with the channels of a small rig, scanned by hand. What a test does not say reads well.</summary>
internal sealed class Bench
{
    /// <summary>A second sensor of the rotor's speed.</summary>
    public const string OtherSpeed = "motor.speed";

    /// <summary>Every interlock that the assembly makes: a new one is tested without being named here.</summary>
    public static readonly IInterlockPlugin[] Plugins = [.. typeof(LidClosedPlugin).Assembly.GetExportedTypes()
        .Where(t => !t.IsAbstract && t.IsAssignableTo(typeof(IInterlockPlugin)))
        .OrderBy(t => t.Name, StringComparer.Ordinal)
        .Select(t => (IInterlockPlugin)Activator.CreateInstance(t)!)];

    public static readonly Channel[] Channels =
    [
        Declare(0, ChannelNames.EnclosureLid, "1", 0, 1), Declare(1, ChannelNames.EnclosureLidOpen, "1", 0, 1),
        Declare(2, ChannelNames.EnclosureLock, "1", 0, 1), Declare(3, ChannelNames.StopClear, "1", 0, 1),
        Declare(4, ChannelNames.FailsafeConfirmed, "1", 0, 1), Declare(5, ChannelNames.MotorTemperature, "degC", -40, 300),
        Declare(6, ChannelNames.RotorSpeed, "rpm", -20_000, 20_000), Declare(7, ChannelNames.BatteryCurrent, "A", -200, 200),
        Declare(8, ChannelNames.BatteryVoltage, "V", 0, 60), Declare(9, ChannelNames.RadioLink, "1", 0, 1, frozenAfter: 0),
        Declare(10, ChannelNames.BatteryTemperature, "degC", -40, 300), Declare(11, ChannelNames.Vibration, "m/s2", -2000, 2000),
        Declare(12, ChannelNames.OutputPulse, "us", 0, 2500), Declare(13, ChannelNames.OutputPower, "1", 0, 1),
        Declare(14, ChannelNames.OperatorPresent, "1", 0, 1), Declare(15, ChannelNames.RecorderBacklog, "%", 0, 100),
        Declare(16, ChannelNames.ScanLateness, "ms", 0, 1e6), Declare(17, OtherSpeed, "rpm", -20_000, 20_000),
        Declare(18, ChannelNames.ArmKey, "1", 0, 1), Declare(19, ChannelNames.OutputThrottle, "%", -120, 120),
    ];

    public InputImage Image;
    public InterlockMemory Memory;

    public Bench(IInterlockPlugin plugin, object options, DemandAction action = DemandAction.CutPower, ControllerMode mode = ControllerMode.OneWay)
    {
        Interlock = plugin.Create(options, ContextFor(plugin.Kind, action, mode: mode));
        foreach ((string name, double value) in Usual)
            Set(name, value);
        if (plugin is KeyTurnedPlugin)
            TurnKey();
    }

    /// <summary>Readings of a closed, locked, confirmed, attended rig under power whose rotor stands.</summary>
    public static IEnumerable<(string Name, double Value)> Usual =>
    [
        (ChannelNames.EnclosureLid, 1), (ChannelNames.EnclosureLidOpen, 0), (ChannelNames.EnclosureLock, 1), (ChannelNames.StopClear, 1),
        (ChannelNames.FailsafeConfirmed, 1), (ChannelNames.MotorTemperature, 20), (ChannelNames.RotorSpeed, 0),
        (ChannelNames.BatteryCurrent, 0), (ChannelNames.BatteryVoltage, 12), (ChannelNames.RadioLink, 1),
        (ChannelNames.BatteryTemperature, 20), (ChannelNames.Vibration, 0), (ChannelNames.OutputPulse, 1000), (ChannelNames.OutputPower, 1),
        (ChannelNames.OperatorPresent, 1), (ChannelNames.RecorderBacklog, 0), (ChannelNames.ScanLateness, 0), (OtherSpeed, 0), (ChannelNames.ArmKey, 1),
        (ChannelNames.OutputThrottle, 0),
    ];

    // What everything else on a bench that is under way has seen before: the key, open and closed after the reset.
    private void TurnKey()
    {
        State = RigState.Idle;
        Set(ChannelNames.ArmKey, 0).Scan();
        Set(ChannelNames.ArmKey, 1).Scan();
        State = RigState.Hold;
    }

    public IInterlock Interlock { get; }

    public RigState State { get; set; } = RigState.Hold;

    public TimeSpan TimeInStep { get; set; }

    public int Step { get; set; }

    /// <summary>Throttle demanded, as a share.</summary>
    public double Throttle { get; set; }

    /// <summary>Whether the power is kept off on purpose.</summary>
    public bool Unpowered { get; set; }

    public TimeSpan Now { get; private set; } = Seconds(10);

    public static TimeSpan Seconds(double seconds) => TimeSpan.FromSeconds(seconds);

    public static int Index(string channel) => Channels.Single(c => c.Name == channel).Index;

    public static InterlockContext ContextFor(string id, DemandAction action = DemandAction.CutPower, Rotor? rotor = null, ControllerMode mode = ControllerMode.OneWay) => new()
    {
        Id = id, Action = action, Article = Disc(rotor, mode), Channels = Channels, Rehearsed = [Rehearsed],
    };

    /// <summary>A rise to 1000 rpm in 0.2 s, which takes the step of every scan here.</summary>
    public static RehearsedBand Rehearsed { get; } = new(ChannelNames.RotorSpeed, Seconds(0.05),
        [new BandStep([0, 200, 400, 700], [100, 400, 700, 1000])]);

    /// <summary>Options with every required one filled in, wide enough to let the usual readings pass.</summary>
    public static object GoodOptions(IInterlockPlugin plugin) => plugin.Kind switch
    {
        "temperature-ceiling" => new TemperatureCeilingOptions { Ceiling = 80, Rise = 10, Window = 1 },
        "over-speed" => new OverSpeedOptions { Limit = 9000 },
        "over-current" => new OverCurrentOptions { Limit = 60, Peak = 100 },
        "under-voltage" => new UnderVoltageOptions { Limit = 9 },
        "stale-reading" => new StaleReadingOptions { Channel = ChannelNames.RadioLink, MaximumAge = 0.2 },
        "energy-ceiling" => new EnergyCeilingOptions { Inertia = 0.0002, Limit = 100 },
        "rate-limit" => new RateLimitOptions { Channel = ChannelNames.MotorTemperature, Change = 5, Within = 1 },
        "frozen-reading" => new FrozenReadingOptions { Channel = ChannelNames.BatteryVoltage, Samples = 50 },
        "speed-plausible" => new SpeedPlausibleOptions { SpeedConstant = 1000 },
        "tachometer-lost" => new TachometerLostOptions { Below = 300, From = 5, Within = 0.5 },
        "tachometer-jump" => new TachometerJumpOptions { Change = 10_000, Within = 1 },
        "current-without-power" => new CurrentWithoutPowerOptions { Limit = 0.5 },
        "readings-agree" => new ReadingsAgreeOptions { First = ChannelNames.RotorSpeed, Second = OtherSpeed, Limit = 100 },
        "vibration" => new VibrationOptions { Limit = 50 },
        "pack-temperature" => new PackTemperatureOptions { Lowest = 5, Highest = 60 },
        "reverse-current" => new ReverseCurrentOptions { Limit = 5 },
        "output-follows" => new OutputFollowsOptions { Tolerance = 10, Within = 0.05 },
        "power-follows" => new PowerFollowsOptions { Within = 0.1 },
        "recorder-behind" => new RecorderBehindOptions { Limit = 25 },
        "rehearsed-band" => new RehearsedBandOptions { Channel = ChannelNames.RotorSpeed, Beyond = 10 },
        "scan-late" => new ScanLateOptions { Limit = 0.002 },
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

    public Demand Scan() => Interlock.Evaluate(new InterlockInput(Image, Now, State, Step, TimeInStep, Throttle, unpowered: Unpowered), ref Memory);

    /// <summary>Lets time pass, gives the channel a new reading and scans.</summary>
    public Demand ScanAfter(double seconds, string channel, double value)
    {
        Now += Seconds(seconds);
        return Set(channel, value).Scan();
    }

    /// <summary>Lets time pass without a new reading.</summary>
    public Bench Wait(double seconds)
    {
        Now += Seconds(seconds);
        return this;
    }

    public string Sentence() => Interlock.Explain(Scan());

    private static Channel Declare(int index, string name, string unit, double minimum, double maximum, int frozenAfter = 400) => new(index, name, 0, new ChannelDeclaration
    {
        Name = name, Unit = unit, Minimum = minimum, Maximum = maximum,
        Period = TimeSpan.FromMilliseconds(5), MaximumAge = TimeSpan.FromMilliseconds(100), FrozenAfter = frozenAfter,
    });

    private static Article Disc(Rotor? rotor, ControllerMode mode) => new()
    {
        Name = "disc-180", Rotor = rotor, StoppingTime = Seconds(1), LongestCoastDown = Seconds(60), MaximumRise = 1,
        Controller = new ControllerProfile
        {
            Mode = mode, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = false, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = Seconds(2),
        },
    };
}

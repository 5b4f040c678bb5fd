namespace RigControl.Kernel.Tests.Support;

/// <summary>
/// A rig for the kernel alone: four channels, a one-way controller, and the interlocks that a test scripts. Scans every 5 ms,
/// stands still below 30 rpm for 0.1 s, keeps power for 0.2 s after a category 1 stop, rises by at most 4 per second.
/// </summary>
internal sealed class RigBuilder
{
    private readonly List<BoundInterlock> _interlocks = [];
    private readonly List<string> _channels =
        [ChannelNames.RotorSpeed, ChannelNames.EnclosureLid, ChannelNames.EnclosureLock, ChannelNames.MotorTemperature];

    public RigDefinition Rig { get; set; } = new()
    {
        Name = "rig",
        ScanPeriod = TimeSpan.FromMilliseconds(5),
        Devices = [],
        Interlocks = [],
        StandstillSpeed = 30,
        StandstillTime = TimeSpan.FromMilliseconds(100),
    };

    public Article Article { get; set; } = new()
    {
        Name = "disc-180",
        Controller = OneWay,
        StoppingTime = TimeSpan.FromMilliseconds(200),
        LongestCoastDown = TimeSpan.FromSeconds(2),
        MaximumRise = 4,
    };

    public Procedure Procedure { get; set; } = new()
    {
        Name = "enclosed-spin-up",
        Repeat = 1,
        Requires = [],
        Steps = [Steps.Arm(), Steps.SpinUp(), Steps.Hold(), Steps.CoastDown()],
        Figures = [],
    };

    public static ControllerProfile OneWay => new()
    {
        Mode = ControllerMode.OneWay,
        StopPulse = 1000,
        MinimumPulse = 1000,
        MaximumPulse = 2000,
        Direction = PulseDirection.Longer,
        BrakesAtStop = false,
        WhenPulsesCease = CeasedPulseBehaviour.Stops,
        ArmingTime = TimeSpan.FromMilliseconds(50),
    };

    public static ControllerProfile TwoWay => OneWay with { Mode = ControllerMode.TwoWay, StopPulse = 1500 };

    public IReadOnlyList<string> ChannelList => _channels;

    /// <summary>What an interlock with a lower limit is; null where none is made.</summary>
    public IInterlock? Lowered { get; set; }

    public RigBuilder With(string id, IInterlock interlock, InterlockScope scope = InterlockScope.EveryStep, ResetPolicy reset = ResetPolicy.Operator)
    {
        _interlocks.Add(new BoundInterlock(id, interlock, scope, reset));
        return this;
    }

    public RigBuilder Reads(string channel)
    {
        _channels.Add(channel);
        return this;
    }

    public RigBuilder DrivesSecond(ControllerProfile controller)
    {
        Article = Article with { SecondController = controller };
        return this;
    }

    public RigBuilder Without(string channel)
    {
        _channels.Remove(channel);
        return this;
    }

    public RigBuilder Does(params Step[] steps)
    {
        Procedure = Procedure with { Steps = steps };
        return this;
    }

    public RigBuilder Times(int repeat)
    {
        Procedure = Procedure with { Repeat = repeat };
        return this;
    }

    public RigBuilder Drives(ControllerProfile controller)
    {
        Article = Article with { Controller = controller };
        return this;
    }

    public Configuration Build() =>
        ConfigurationCompiler.Compile(Rig, Article, Procedure, [.. _channels.Select((name, i) => Channel(i, name))], _interlocks, _ => Lowered);

    public static Channel Channel(int index, string name, int frozenAfter = 0) => new(index, name, 0, new ChannelDeclaration
    {
        Name = name,
        Unit = name == ChannelNames.ReceiverPulse ? "us" : "1",
        Minimum = -1000,
        Maximum = 20000,
        Period = TimeSpan.FromMilliseconds(5),
        MaximumAge = TimeSpan.FromMilliseconds(50),
        FrozenAfter = frozenAfter,
    });
}

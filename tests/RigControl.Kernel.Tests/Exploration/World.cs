namespace RigControl.Kernel.Tests.Exploration;

/// <summary>
/// A rig whose times are a few scans long, so that every one of its states can be visited. The scan is the slowest allowed, and what cannot
/// be shortened (the warning, the wait for the start) is passed over by <see cref="Canonical"/>.
/// </summary>
internal sealed class World
{
    public const int Speed = 0, Lid = 1, Output = 2, Stops = 3, Cuts = 4, Proof = 5, Receiver = 6, Rest = 7;

    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(100);

    private static readonly string[] Names = [ChannelNames.RotorSpeed, ChannelNames.EnclosureLid, ChannelNames.OutputThrottle, "stops", "cuts", "proof", ChannelNames.ReceiverPulse];

    private World(string name, Procedure procedure, Move[] moves, bool isLinked = false, bool isLeftTurning = false)
    {
        (Name, Moves, IsLinked) = (name, moves, isLinked);
        string[] names = isLeftTurning ? [.. Names, ChannelNames.LeftAtRest] : Names;
        Channel[] channels = [.. names.Select((n, i) => RigBuilder.Channel(i, n))];
        BoundInterlock[] interlocks =
        [
            new("stops", new CodedInterlock(Stops, DemandAction.StopOutput), InterlockScope.EveryStep, ResetPolicy.Operator),
            new("cuts", new CodedInterlock(Cuts, DemandAction.CutPower), InterlockScope.EveryStep, ResetPolicy.Operator),
            new("proof", new CodedInterlock(Proof, DemandAction.StopOutput), InterlockScope.EveryStep, ResetPolicy.Operator, ProvesFailsafe: true),
        ];
        Configuration = ConfigurationCompiler.Compile(Rig, Article, procedure, channels, interlocks);
    }

    /// <summary>All of them.</summary>
    public static World[] All => [Ordinary, Verification, RadioLost, RadioTried, Linked, Gated, LeftTurning];

    public string Name { get; }

    /// <summary>What may enter a scan.</summary>
    public Move[] Moves { get; }

    /// <summary>Whether a board behind a link is part of it.</summary>
    public bool IsLinked { get; }

    public Configuration Configuration { get; }

    /// <summary>A procedure of every kind of step that energises, twice, so that a repeat is among them.</summary>
    public static World Ordinary { get; } = new("an ordinary run", new Procedure
    {
        Name = "all", Repeat = 2, Requires = [], Figures = [],
        Steps =
        [
            new Step { Kind = StepKind.Arm, Timeout = Scans(4) },
            new Step { Kind = StepKind.SpinUp, Throttle = 0.2, Ramp = Scans(1), Timeout = Scans(4) },
            new Step { Kind = StepKind.Hold, For = Scans(2), Timeout = Scans(3) },
            new Step { Kind = StepKind.SpinUp, Throttle = 0.4, Ramp = Scans(1), Timeout = Scans(4) },
            new Step { Kind = StepKind.Hold, For = Scans(1), Timeout = Scans(3) },
            new Step { Kind = StepKind.CoastDown, Until = [Below(ChannelNames.RotorSpeed, 30)], Timeout = Scans(4) },
            new Step { Kind = StepKind.Rest, For = Scans(1), Timeout = Scans(2) },
        ],
    }, Exploration.Moves.Ordinary);

    /// <summary>One run up and down with a board behind a link that loses and delays frames, and ends that begin anew.</summary>
    public static World Linked { get; } = new("a board behind a link", UpAndDown, Exploration.Moves.Linked, isLinked: true);

    /// <summary>The same without the link, on a rig whose last host ended over a rotor that turned.</summary>
    public static World LeftTurning { get; } = new("a rotor left turning", UpAndDown, Exploration.Moves.Ordinary, isLeftTurning: true);

    /// <summary>The receiver drives through the gate, and may be lost or held off its stop.</summary>
    public static World Gated { get; } = new("the receiver behind its gate", new Procedure
    {
        Name = "gated", Repeat = 1, Requires = [], Figures = [],
        Steps =
        [
            new Step { Kind = StepKind.Arm, Timeout = Scans(4) },
            new Step { Kind = StepKind.Gate, For = Scans(3), Timeout = Scans(5) },
            new Step { Kind = StepKind.CoastDown, Until = [Below(ChannelNames.RotorSpeed, 30)], Timeout = Scans(4) },
        ],
    }, Exploration.Moves.Gated);

    /// <summary>A verification that provokes by a person and by the host, with and without power.</summary>
    public static World Verification { get; } = new("a verification", new Procedure
    {
        Name = "verification", Repeat = 1, Requires = [], Figures = [], Verification = new VerificationCeiling(0.2, 200),
        Steps =
        [
            new Step { Kind = StepKind.Observe, Until = [Below(ChannelNames.EnclosureLid, 0.5)], Timeout = Scans(3) },
            .. One(new Provocation { Name = "pulses", Manner = ProvocationManner.Awaited, Expected = "stops", Evidence = [Below(ChannelNames.OutputThrottle, 10)], Allowed = Scans(2) }, unpowered: true),
            .. One(new Provocation { Name = "cut", Manner = ProvocationManner.Awaited, Expected = "cuts", Evidence = [Below(ChannelNames.OutputThrottle, 10), Below(ChannelNames.RotorSpeed, 30)], Allowed = Scans(3) }, unpowered: false),
            .. One(new Provocation { Name = "silence", Manner = ProvocationManner.Silence, Consequences = ["stops"], Evidence = [Below(ChannelNames.OutputThrottle, 10)], Allowed = Scans(3) }, unpowered: false),
            .. One(new Provocation { Name = "power", Manner = ProvocationManner.PowerCut, Evidence = [Below(ChannelNames.RotorSpeed, 30)], Allowed = Scans(3) }, unpowered: false),
            new Step { Kind = StepKind.Rest, For = Scans(1), Timeout = Scans(2) },
        ],
    }, Exploration.Moves.Verification);

    /// <summary>A verification in which the radio is lost while its stick drives, and comes back wherever its stick may be.</summary>
    public static World RadioLost { get; } =
        Radio("a radio lost in a verification", Above(ChannelNames.RotorSpeed, 50), Below(ChannelNames.RotorSpeed, 30), Exploration.Moves.RadioLost, unpowered: false);

    /// <summary>The same with the power off, where only the pulse tells.</summary>
    public static World RadioTried { get; } =
        Radio("a radio lost without power", Above(ChannelNames.OutputThrottle, 10), Below(ChannelNames.OutputThrottle, 10), Exploration.Moves.RadioTried, unpowered: true);

    /// <summary>What the channels read in a scan.</summary>
    /// <param name="move">What happens.</param>
    /// <param name="before">The world before it.</param>
    /// <param name="image">Where to put it.</param>
    public void Into(Move move, in Node before, ref InputImage image)
    {
        image[Speed] = move.Speed is { } speed ? Reads(speed) : default;
        image[Output] = Reads(move.Stopped ? 0 : 20);
        image[Receiver] = move.Stick is { } pulse ? Reads(pulse) : default;
        image[Stops] = Reads(move.Stops ? 0 : 1);
        // In the one world that has it, nobody ever says that the rotor was left at rest.
        image[Rest] = Reads(0);
        image[Proof] = Reads(move.Proven ? 1 : 0);
        image[Lid] = IsLinked ? before.Wire.IsGivenUp ? default : Reads(before.Wire.SaysShut ? 1 : 0) : Reads(move.Shut ? 1 : 0);
        image[Cuts] = IsLinked ? Board(before) : Reads(move.Cuts ? 0 : 1);
    }

    // Latched is everyday until an operator arms, no reason to trip while the board is being reset, and a cause after that.
    private static ImageEntry Board(in Node before) => before switch
    {
        { Wire.IsGivenUp: true } => default,
        { Wire.SaysLatched: false } or { Kernel.State: RigState.SafeStop or RigState.Idle } => Reads(1),
        { Kernel.Phase: ArmingPhase.Preparing } => Reads(2),
        _ => Reads(0),
    };

    private static ImageEntry Reads(double value) => new() { Last = value, Minimum = value, Maximum = value, Count = 1, Quality = Quality.Good };

    private static Procedure UpAndDown => new()
    {
        Name = "up-and-down", Repeat = 1, Requires = [], Figures = [],
        Steps =
        [
            new Step { Kind = StepKind.Arm, Timeout = Scans(4) },
            new Step { Kind = StepKind.SpinUp, Throttle = 0.2, Ramp = Scans(1), Timeout = Scans(3) },
            new Step { Kind = StepKind.CoastDown, Until = [Below(ChannelNames.RotorSpeed, 30)], Timeout = Scans(4) },
        ],
    };

    private static RigDefinition Rig => new()
    {
        Name = "rig", ScanPeriod = Period, Devices = [], Interlocks = [], StandstillSpeed = 30, StandstillTime = Scans(2),
    };

    private static Article Article => new()
    {
        Name = "article", Controller = RigBuilder.OneWay with { ArmingTime = Scans(1) }, StoppingTime = Scans(2), LongestCoastDown = Scans(3), MaximumRise = 10,
        Rotor = new Rotor(1e-4, 0.05, 0.2, 6000),
    };

    private static World Radio(string name, Condition drives, Condition stops, Move[] moves, bool unpowered) => new(name, new Procedure
    {
        Name = "radio-lost", Repeat = 1, Requires = [], Figures = [], Verification = new VerificationCeiling(0.2, 200),
        Steps =
        [
            new Step { Kind = StepKind.Arm, Timeout = Scans(4), Unpowered = unpowered },
            new Step { Kind = StepKind.Gate, Until = [drives], Timeout = Scans(3), Unpowered = unpowered },
            new Step
            {
                Kind = StepKind.Provoke, Timeout = Scans(3), Unpowered = unpowered,
                Provocation = new Provocation { Name = "radio", Manner = ProvocationManner.ThroughGate, Expected = "receiver", Evidence = [stops], Allowed = Scans(3) },
            },
            new Step { Kind = StepKind.Rest, For = Scans(1), Timeout = Scans(2) },
        ],
    }, moves);

    private static Step[] One(Provocation provocation, bool unpowered) =>
    [
        new Step { Kind = StepKind.Arm, Timeout = Scans(4), Unpowered = unpowered },
        new Step { Kind = StepKind.SpinUp, Throttle = 0.2, Timeout = Scans(3), Unpowered = unpowered },
        new Step { Kind = StepKind.Provoke, Provocation = provocation, Throttle = 0.2, Timeout = Scans(6), Unpowered = unpowered },
    ];

    private static Condition Below(string channel, double value) => new(channel, ConditionKind.Below, value, false, TimeSpan.Zero);

    private static Condition Above(string channel, double value) => Below(channel, value) with { Kind = ConditionKind.Above };

    private static TimeSpan Scans(int count) => Period * count;
}

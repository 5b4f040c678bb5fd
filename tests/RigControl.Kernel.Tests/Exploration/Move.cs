namespace RigControl.Kernel.Tests.Exploration;

/// <summary>How the scan follows the one before.</summary>
internal enum Pace
{
    OnTime,
    Late,
    Leap,
    Backwards,
}

/// <summary>Everything that may enter one scan.</summary>
/// <param name="Speed">rpm; null where it cannot be read.</param>
/// <param name="Command">What is asked, and by whom; null for nothing.</param>
internal readonly record struct Move(double? Speed, bool Shut, bool Stopped, bool Stops, bool Cuts, bool Proven, (CommandKind Kind, CommandSource Source)? Command, Pace Pace)
{
    private static readonly double?[] Speeds = [0, 100, 500, null];
    private static readonly bool[] Both = [true, false];

    private static readonly (CommandKind, CommandSource)?[] Commands =
    [
        null, (CommandKind.Stop, CommandSource.Network), (CommandKind.Reset, CommandSource.Bench), (CommandKind.Arm, CommandSource.Bench), (CommandKind.Start, CommandSource.Bench),
        (CommandKind.Unlock, CommandSource.Bench), (CommandKind.Lock, CommandSource.Bench), (CommandKind.Start, CommandSource.Network),
    ];

    /// <summary>Every combination of them.</summary>
    public static Move[] All { get; } =
    [
        .. from speed in Speeds from shut in Both from stopped in Both from stops in Both from cuts in Both from proven in Both
           from command in Commands from pace in Enum.GetValues<Pace>()
           select new Move(speed, shut, stopped, stops, cuts, proven, command, pace),
    ];

    public TimeSpan After => Pace switch
    {
        Pace.OnTime => World.Period,
        Pace.Late => World.Period * 2,
        Pace.Leap => World.Period * 20,
        _ => -World.Period,
    };

    /// <summary>Puts the readings into an image.</summary>
    public void Into(ref InputImage image)
    {
        image[World.Speed] = Speed is { } speed ? Reads(speed) : default;
        image[World.Lid] = Reads(Shut ? 1 : 0);
        image[World.Output] = Reads(Stopped ? 0 : 20);
        image[World.Stops] = Reads(Stops ? 0 : 1);
        image[World.Cuts] = Reads(Cuts ? 0 : 1);
        image[World.Proof] = Reads(Proven ? 1 : 0);
    }

    public override string ToString()
    {
        List<string> said = [Speed is { } speed ? $"{speed} rpm" : "no speed"];
        if (Stops)
            said.Add("stops objects");
        if (Cuts)
            said.Add("cuts objects");
        if (!Proven)
            said.Add("unproven");
        if (!Shut)
            said.Add("lid open");
        said.Add(Stopped ? "output reads stop" : "output reads live");
        if (Command is { } command)
            said.Add($"{command.Kind} by {command.Source}");
        if (Pace != Pace.OnTime)
            said.Add($"clock {Pace}");
        return string.Join(", ", said);
    }

    private static ImageEntry Reads(double value) => new() { Last = value, Minimum = value, Maximum = value, Count = 1, Quality = Quality.Good };
}

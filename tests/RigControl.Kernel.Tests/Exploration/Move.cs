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
/// <param name="Shut">The lid.</param>
/// <param name="Command">What is asked, and by whom; null for nothing.</param>
/// <param name="Link">What becomes of the scan's frame, where a board is behind a link.</param>
internal readonly record struct Move(
    double? Speed, bool Shut, bool Stopped, bool Stops, bool Cuts, bool Proven, (CommandKind Kind, CommandSource Source)? Command, Pace Pace, LinkFate Link)
{
    /// <summary>Pulse of the receiver, us; null where it is lost.</summary>
    public double? Stick { get; init; } = AtStop;

    /// <summary>Pulse of a stick at stop, us.</summary>
    public const double AtStop = 1000;

    /// <summary>Pulse of a verification's highest throttle, us.</summary>
    public const double AtCeiling = 1200;

    public TimeSpan After => Pace switch
    {
        Pace.OnTime => World.Period,
        Pace.Late => World.Period * 2,
        Pace.Leap => World.Period * 20,
        _ => -World.Period,
    };

    public override string ToString()
    {
        List<string> said = [Speed is { } speed ? $"{speed} rpm" : "no speed"];
        Say(said, Stops, "stops objects");
        Say(said, Cuts, "cuts objects");
        Say(said, !Proven, "unproven");
        Say(said, !Shut, "lid open");
        Say(said, !Stopped, "output reads live");
        Say(said, Stick is null, "receiver lost");
        Say(said, Stick > AtStop, "stick up");
        Say(said, Command is not null, $"{Command?.Kind} by {Command?.Source}");
        Say(said, Pace != Pace.OnTime, $"clock {Pace}");
        Say(said, Link != LinkFate.Whole, $"{Link}");
        return string.Join(", ", said);
    }

    private static void Say(List<string> said, bool isSo, string word)
    {
        if (isSo)
            said.Add(word);
    }
}

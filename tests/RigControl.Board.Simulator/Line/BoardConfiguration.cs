using System.Globalization;

namespace RigControl.Board.Simulator.Line;

/// <summary>The configuration that a host loads into the board, C1 to C17 of the protocol; the defaults fit <c>disc-180</c>.</summary>
public sealed record BoardConfiguration
{
    /// <summary>Stop pulse, µs, 800 to 2200.</summary>
    public int StopPulse { get; init; } = 1000;

    /// <summary>Least pulse, µs, 800 to 2200.</summary>
    public int LeastPulse { get; init; } = 1000;

    /// <summary>Greatest pulse, µs, up to 2200.</summary>
    public int GreatestPulse { get; init; } = 2000;

    /// <summary>Pulses a second, 50 to 400.</summary>
    public int Rate { get; init; } = 400;

    /// <summary>Shortest permitted revolution, µs, 500 to 4000000.</summary>
    public int ShortestRevolution { get; init; } = 3000;

    /// <summary>Lowest and highest permitted current reading, counts: 0 to 511 and 512 to 1023.</summary>
    public (int Lowest, int Highest) Current { get; init; } = (100, 900);

    /// <summary>Consecutive readings beyond those that trip, 1 to 200.</summary>
    public int CurrentReadings { get; init; } = 4;

    /// <summary>Time without tachometer pulse that trips while driven, ms, 20 to 10000; null for a rig without tachometer.</summary>
    public int? TachometerLost { get; init; } = 300;

    /// <summary>Distance from the stop pulse from which the tachometer is watched, µs, 1 to 1000.</summary>
    public int WatchedFrom { get; init; } = 100;

    /// <summary>Time in which the contactor must follow, ms, 20 to 500.</summary>
    public int ContactorTime { get; init; } = 100;

    /// <summary>Time for which the lid contacts may disagree, ms, 10 to 500.</summary>
    public int LidDisagreement { get; init; } = 50;

    /// <summary>Filter of closing contacts, ms, 5 to 200.</summary>
    public int ClosingFilter { get; init; } = 20;

    /// <summary>True when a trip makes pulses cease instead of putting out the stop pulse.</summary>
    public bool Ceases { get; init; }

    /// <summary>Stop, least and greatest pulse of the second output, µs; null where nothing is on it.</summary>
    public (int Stop, int Least, int Greatest)? Second { get; init; }

    /// <summary>C1 to C17 as the protocol writes them.</summary>
    public string Text => string.Join(' ', ((FormattableString[])
    [
        $"{StopPulse} {LeastPulse} {GreatestPulse} {StopPulse} {Rate} 1 {ShortestRevolution}",
        $"{Current.Lowest} {Current.Highest} {CurrentReadings}",
        $"{TachometerLost?.ToString(CultureInfo.InvariantCulture) ?? "none"} {WatchedFrom}",
        $"{ContactorTime} {LidDisagreement} {ClosingFilter} {(Ceases ? "cease" : "stop")} {SecondText}",
    ]).Select(FormattableString.Invariant));

    private string SecondText => Second is var (stop, least, greatest) ? FormattableString.Invariant($"{stop} {least} {greatest}") : "none";

    /// <summary>The digest that the board must echo.</summary>
    public ushort Digest => BoardLine.Crc(Text) is var crc && crc == 0 ? (ushort)0xFFFF : crc;
}

using System.Globalization;
using System.Text;

namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>What is loaded into the board before it puts anything out: C1 to C17 of its line protocol, in the units of the line.</summary>
internal sealed record BoardConfiguration
{
    /// <summary>C1, us, 800 to 2200.</summary>
    public required int StopPulse { get; init; }

    /// <summary>C2, us, 800 to 2200.</summary>
    public required int LeastPulse { get; init; }

    /// <summary>C3, us, C2 to 2200.</summary>
    public required int GreatestPulse { get; init; }

    /// <summary>C4, us, 800 to 2200.</summary>
    public required int ArmingPulse { get; init; }

    /// <summary>C5, Hz, 50 to 400.</summary>
    public required int Rate { get; init; }

    /// <summary>C6, 1 to 16.</summary>
    public required int PulsesPerRevolution { get; init; }

    /// <summary>C7, us, 500 to 4000000.</summary>
    public required int ShortestRevolution { get; init; }

    /// <summary>C8, counts, 0 to 511.</summary>
    public required int LowestCurrent { get; init; }

    /// <summary>C9, counts, 512 to 1023.</summary>
    public required int HighestCurrent { get; init; }

    /// <summary>C10, readings, 1 to 200.</summary>
    public required int CurrentReadings { get; init; }

    /// <summary>C11, ms, 20 to 10000; null for a rig without tachometer.</summary>
    public required int? TachometerLost { get; init; }

    /// <summary>C12, us, 1 to 1000.</summary>
    public required int TachometerFrom { get; init; }

    /// <summary>C13, ms, 20 to 500.</summary>
    public required int ContactorTime { get; init; }

    /// <summary>C14, ms, 10 to 500.</summary>
    public required int LidDisagreement { get; init; }

    /// <summary>C15, ms, 6 to 200.</summary>
    public required int ClosingFilter { get; init; }

    /// <summary>C16: a trip makes pulses cease instead of putting out the stop pulse.</summary>
    public required bool Ceases { get; init; }

    /// <summary>C17: stop, least and greatest, us, each 800 to 2200; null where nothing is on the second output.</summary>
    public SecondOutput? Second { get; init; }

    /// <summary>Pulse at which the second output drives nothing, us; 0, no pulse, where nothing is on it.</summary>
    public int SecondStop => Second?.StopPulse ?? 0;

    /// <summary>The fields as the line carries them.</summary>
    public string Text => string.Create(CultureInfo.InvariantCulture,
        $"{StopPulse} {LeastPulse} {GreatestPulse} {ArmingPulse} {Rate} {PulsesPerRevolution} {ShortestRevolution} {LowestCurrent} {HighestCurrent}")
        + string.Create(CultureInfo.InvariantCulture,
        $" {CurrentReadings} {TachometerText} {TachometerFrom} {ContactorTime} {LidDisagreement} {ClosingFilter} {(Ceases ? "cease" : "stop")} {SecondText}");

    /// <summary>What the board echoes once it holds exactly this; never 0, which means nothing loaded.</summary>
    public ushort Digest => Crc16.Of(Encoding.ASCII.GetBytes(Text)) is var crc && crc == 0 ? ushort.MaxValue : crc;

    private string SecondText => Second is { } second
        ? string.Create(CultureInfo.InvariantCulture, $"{second.StopPulse} {second.LeastPulse} {second.GreatestPulse}")
        : "none";

    private string TachometerText => TachometerLost?.ToString(CultureInfo.InvariantCulture) ?? "none";
}

/// <summary>The pulses of the second output, us.</summary>
internal sealed record SecondOutput(int StopPulse, int LeastPulse, int GreatestPulse);

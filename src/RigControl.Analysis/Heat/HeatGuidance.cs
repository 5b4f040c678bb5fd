using static System.FormattableString;

namespace RigControl.Analysis.Heat;

/// <summary>
/// What a temperature means for a printed mount and for a hand, in a sentence with its source. Guidance: it is no limit, and no limit is
/// ever taken from it.
/// </summary>
internal static class HeatGuidance
{
    /// <summary>
    /// degC from which plain printing plastics give way under a load of 1.8 MPa, the lower end of what is usual. Source: ISO 75-2, method A,
    /// as typical data sheets give it (from memory); what is printed differs by filament, filling and direction.
    /// </summary>
    public static IReadOnlyList<(string Plastic, double From)> Mounts { get; } =
        [("PA12", 45), ("PLA", 50), ("PA6", 55), ("PETG", 65), ("ABS", 85), ("ASA", 90), ("PC", 125), ("PEEK", 150)];

    /// <summary>
    /// degC from which bare metal may burn the skin that touches it for so long, the lower end of the range. Source: ISO 13732-1:2006,
    /// clause 4.2 (from memory; the 65 degC of a second also read in a page that cites it).
    /// </summary>
    public static IReadOnlyList<(string Touch, double From)> Touches { get; } = [("a minute", 51), ("ten seconds", 55), ("a second", 65)];

    /// <summary>What to mind about a part whose sensor read so much at its hottest, degC; null where it is neither too hot to touch nor for any mount.</summary>
    public static string? Of(string channel, double hottest)
    {
        string[] mounts = [.. Mounts.Where(m => hottest >= m.From).Select(m => Invariant($"{m.Plastic} from {m.From:0}"))];
        (string? touch, double from) = Touches.LastOrDefault(t => hottest >= t.From);
        string[] told =
        [
            .. mounts.Length > 0 ? [$"a printed mount gives way under load ({string.Join(", ", mounts)} degC: ISO 75-2, as data sheets usually have it)"] : Array.Empty<string>(),
            .. touch is not null ? [Invariant($"bare metal may burn the skin within {touch} (from {from:0} degC: ISO 13732-1:2006)")] : Array.Empty<string>(),
        ];
        return told.Length == 0 ? null : Invariant($"{channel} was {hottest:0} degC at its hottest, where {string.Join(" and ", told)}; guidance (values from memory), not a limit");
    }
}

using RigControl.Documents.Values;

namespace RigControl.Documents.Procedures;

/// <summary>What figures are asked at, as the key `figures-at` of a procedure and the options of `analyze` state it. Nothing is stated by default.</summary>
public static class FiguresAt
{
    /// <summary>Time after the stop output, s, of speed-after and energy-after.</summary>
    public const string After = "after";

    /// <summary>Speed, rpm, of time-to-speed.</summary>
    public const string ToSpeed = "to-speed";

    /// <summary>How close to the steady speed counts as settled, %, for settling-time.</summary>
    public const string SettledWithin = "settled-within";

    /// <summary>Length of a match, s, of match-share; goes with <see cref="Duty"/>.</summary>
    public const string Match = "match";

    /// <summary>Share of a match with the output on, %.</summary>
    public const string Duty = "duty";

    /// <summary>Temperature of the surroundings, degC, for time-to-limit and continuous-current, instead of the run's own.</summary>
    public const string Ambient = "ambient";

    internal static IReadOnlyDictionary<string, Bounds> Ranges { get; } = new Dictionary<string, Bounds>
    {
        [After] = new("s", 0, 86400), [ToSpeed] = new("rpm", 1, 100_000), [SettledWithin] = new("%", 0.1, 50),
        [Match] = new("s", 1, 86400), [Duty] = new("%", 1, 100), [Ambient] = new("degC", -40, 100),
    };

    /// <summary>Whether a value in the key's unit lies in its range.</summary>
    public static bool Takes(string key, double value) => Ranges[key].Hold(value);

    /// <summary>The range as a sentence names it, such as <c>from 0 s to 10 s</c>.</summary>
    public static string Range(string key) => Ranges[key].ToString();

    /// <summary>The key that one of match and duty lacks; null where both or neither are stated.</summary>
    public static string? Missing(IReadOnlyDictionary<string, double> stated) =>
        stated.ContainsKey(Match) == stated.ContainsKey(Duty) ? null : stated.ContainsKey(Match) ? Duty : Match;
}

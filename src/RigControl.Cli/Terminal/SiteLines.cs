using System.Globalization;
using RigControl.Telemetry.Watching;

namespace RigControl.Cli.Terminal;

/// <summary>The rigs of a site in words: the same for the table, for plain lines and for JSON.</summary>
internal static class SiteLines
{
    /// <summary>One line a rig.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<RigGlimpse> rigs) => rigs.Count == 0
        ? ["no rig of this site has been heard"]
        : rigs.Select(r => $"{r.Rig}{(r.Simulated ? " (simulated)" : "")}: {State(r)}; tightest {Tightest(r)}; trips {Trips(r)}; link {Link(r)}");

    public static string State(RigGlimpse rig) => rig switch
    {
        { State: "" } => rig.Status is "" ? "unknown" : "no scan yet",
        { Phase: "Warning" } => "WARNING",
        { Phase: "AwaitingStart" } => "READY",
        { State: "SafeStop" } => "SAFE-STOP",
        { State: "SpinUp" } => "SPIN-UP",
        { State: "CoastDown" } => "COAST-DOWN",
        _ => rig.State.ToUpperInvariant(),
    };

    public static string Tightest(RigGlimpse rig) => rig switch
    {
        { Tightest: "" } => "-",
        { Objects: true } => $"{rig.Tightest} OBJECTS",
        { Margin: { } margin } => string.Create(CultureInfo.InvariantCulture, $"{rig.Tightest} {Math.Clamp(margin, 0, 1) * 100:0} %"),
        _ => rig.Tightest,
    };

    public static string Trips(RigGlimpse rig) => rig.Trips.Count == 0 ? "none"
        : string.Join(", ", rig.Trips.Select(t => rig.Reasons.TryGetValue(t, out string? reason) ? $"{t} ({reason})" : t));

    /// <summary>The first cause, and how many more there are.</summary>
    public static string TripsInShort(RigGlimpse rig) => rig.Trips.Count switch
    {
        0 => "none",
        1 => rig.Trips[0],
        _ => $"{rig.Trips[0]} +{rig.Trips.Count - 1}",
    };

    /// <summary>Why each rig has tripped, a line a cause: of every rig the first, then of every rig the second.</summary>
    public static IEnumerable<string> Causes(IReadOnlyList<RigGlimpse> rigs) => rigs
        .SelectMany(r => r.Trips.Select((trip, place) => (Place: place, Line: $"{r.Rig}: {trip}: {r.Reasons.GetValueOrDefault(trip, "no reason heard yet")}")))
        .OrderBy(c => c.Place).Select(c => c.Line);

    public static string Link(RigGlimpse rig) => (rig.Status, rig.Age) switch
    {
        ("lost", _) => "LOST",
        ("offline", _) => "offline",
        (_, null) => "not heard yet",
        (_, { } age) when age > RigGlimpse.Silence => string.Create(CultureInfo.InvariantCulture, $"SILENT {age.TotalSeconds:0} s"),
        (_, { } age) => string.Create(CultureInfo.InvariantCulture, $"{age.TotalSeconds:0.0} s"),
    };

    public static object Document(RigGlimpse rig) => new
    {
        rig = rig.Rig, simulated = rig.Simulated, status = rig.Status, state = rig.State, phase = rig.Phase, run = rig.Run,
        tightest = rig.Tightest.Length == 0 ? null : new { interlock = rig.Tightest, objects = rig.Objects, margin = rig.Margin },
        trips = rig.Trips.Select(t => new { trip = t, reason = rig.Reasons.GetValueOrDefault(t) }), age = rig.Age?.TotalSeconds,
    };
}

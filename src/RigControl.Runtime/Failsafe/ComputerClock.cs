using System.Globalization;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// What the clocks of this computer show at one moment. The wall clock can be set; the time for which the computer has run cannot, and
/// goes on while it sleeps.
/// </summary>
/// <param name="Wall">By the wall clock.</param>
/// <param name="Start">Which start of the computer it is; empty where the system does not tell.</param>
/// <param name="Up">Time since that start, sleep included.</param>
public sealed record ComputerClock(DateTimeOffset Wall, string Start, TimeSpan Up)
{
    /// <summary>How far the wall clock and the time for which the computer has run may drift apart before the clock counts as set: none is disciplined so hard in half a day.</summary>
    public static readonly TimeSpan MostDrift = TimeSpan.FromMinutes(1);

    // Linux tells both; elsewhere nothing is known but the wall clock.
    private const string StartFile = "/proc/sys/kernel/random/boot_id";
    private const string UpFile = "/proc/uptime";

    public static ComputerClock Read(TimeProvider time)
    {
        try
        {
            if (File.Exists(StartFile) && File.Exists(UpFile))
                return new(time.GetUtcNow(), File.ReadAllText(StartFile).Trim(), TimeSpan.FromSeconds(double.Parse(File.ReadAllText(UpFile).Split(' ')[0], CultureInfo.InvariantCulture)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException)
        {
            // As on a system that tells nothing.
        }

        return new(time.GetUtcNow(), "", TimeSpan.Zero);
    }

    /// <summary>Why time cannot be told from an earlier moment to this one, as a clause; null where nothing shows that the wall clock was set.</summary>
    /// <param name="earlier">Null where nobody kept it.</param>
    public string? JumpedSince(ComputerClock? earlier)
    {
        if (earlier is null || earlier.Start.Length == 0 || Start.Length == 0)
            return null;
        if (earlier.Start == Start)
            return Set(Wall - earlier.Wall - (Up - earlier.Up));
        // Another start of the computer came after that moment, whatever the clock was set to in between.
        TimeSpan started = Wall - Up - earlier.Wall;
        return started < -MostDrift ? Set(started) : null;
    }

    /// <summary>The same from the latest moment that is written down anywhere; null for none.</summary>
    public string? IsBehind(DateTimeOffset? seen) => seen is { } latest && Wall < latest - MostDrift
        ? $"the clock of this computer went back, for the logbook holds what happened at {latest.UtcDateTime:yyyy-MM-dd HH:mm} UTC"
        : null;

    private static string? Set(TimeSpan by)
    {
        if (by.Duration() <= MostDrift)
            return null;
        string size = by.Duration() < TimeSpan.FromHours(2)
            ? string.Create(CultureInfo.InvariantCulture, $"{by.Duration().TotalMinutes:0} min")
            : string.Create(CultureInfo.InvariantCulture, $"{by.Duration().TotalHours:0.#} h");
        return $"the clock of this computer was set {(by < TimeSpan.Zero ? "back" : "forward")} by {size} or so since the failsafe was verified";
    }
}

using System.Globalization;

namespace RigControl.Telemetry.Outage;

/// <summary>
/// What telemetry must remember from one process to the next, a folder for each rig: the session number, the outbox, and which
/// trips it has left standing at the broker. Where the folder cannot be used, memory and the clock take its place.
/// </summary>
internal sealed class StateFolder : IDisposable
{
    private readonly string? _folder;
    private readonly TimeProvider _time;
    private long _session;

    private StateFolder(string? folder, Outbox outbox, TimeProvider time, string? problem) => (_folder, Outbox, _time, Problem) = (folder, outbox, time, problem);

    public Outbox Outbox { get; }

    /// <summary>Why nothing is remembered, as a sentence; null when all is well.</summary>
    public string? Problem { get; }

    /// <summary>Opens the folder of a rig below <paramref name="root"/>.</summary>
    /// <param name="note">Hears what is not remembered any more, and why.</param>
    public static StateFolder Open(string root, string site, string rig, TimeProvider time, Action<string>? note = null)
    {
        string folder = Path.Combine(root, site, rig);
        try
        {
            Directory.CreateDirectory(folder);
            return new StateFolder(folder, new Outbox(Path.Combine(folder, "outbox.jsonl"), failed: Failed), time, null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            string problem = $"telemetry remembers nothing past this process: {folder} cannot be used ({e.Message}); another run of this rig may have it open";
            return new StateFolder(null, new Outbox((Stream?)null), time, problem);
        }

        void Failed(string reason) => note?.Invoke($"events, trips and figures that wait for the link are kept in memory alone: {folder} takes nothing any more ({reason})");
    }

    /// <summary>The number of a new connection, higher than every one before, also of earlier processes.</summary>
    public long NextSession()
    {
        long stored = Math.Max(_session, ReadSession());
        // Without a memory the clock rises too.
        _session = _folder is null ? Math.Max(stored + 1, _time.GetUtcNow().ToUnixTimeSeconds()) : stored + 1;
        Replace("session", _session.ToString(CultureInfo.InvariantCulture));
        return _session;
    }

    /// <summary>Ids of the trips left standing at the broker.</summary>
    public IReadOnlyList<string> StandingTrips() => ReadText("trips")?.Split('\n', StringSplitOptions.RemoveEmptyEntries) ?? [];

    public void RememberTrips(IEnumerable<string> ids) => Replace("trips", string.Join('\n', ids));

    public void Dispose() => Outbox.Dispose();

    private long ReadSession() =>
        long.TryParse(ReadText("session"), NumberStyles.None, CultureInfo.InvariantCulture, out long stored) ? stored : 0;

    private string? ReadText(string name)
    {
        try
        {
            return _folder is null ? null : File.ReadAllText(Path.Combine(_folder, name));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    // Whole or not at all: a half-written number would go back.
    private void Replace(string name, string text)
    {
        if (_folder is null)
            return;
        try
        {
            string file = Path.Combine(_folder, name);
            File.WriteAllText(file + ".new", text);
            File.Move(file + ".new", file, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The number in memory still rises; a later process may begin with it again.
        }
    }
}

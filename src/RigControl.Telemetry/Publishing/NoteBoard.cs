using RigControl.Model.Records;

namespace RigControl.Telemetry.Publishing;

/// <summary>Carries notes on the link to the record of the run, or to whoever started it while no run takes them.</summary>
internal sealed class NoteBoard(Action<string> otherwise)
{
    // As many as a run may have waiting.
    private const int Most = 16;

    private readonly Lock _lock = new();
    private readonly List<string> _early = [];
    private readonly HashSet<string> _said = [];
    private INetworkPort? _port;

    /// <summary>Says a thing once; that a link works again lets everything be said anew.</summary>
    public void Put(string note)
    {
        lock (_lock)
        {
            if (note.EndsWith("works again", StringComparison.Ordinal))
                _said.Clear();
            else if (_said.Count >= Most || !_said.Add(note))
                return;
            if (_port is { } port)
                port.Tell(EventNames.TelemetryNote, "telemetry", note, "");
            else if (_early.Count < Most)
                _early.Add(note);
        }
    }

    public void Attach(INetworkPort port)
    {
        lock (_lock)
        {
            _port = port;
            foreach (string note in _early)
                port.Tell(EventNames.TelemetryNote, "telemetry", note, "");
            _early.Clear();
        }
    }

    public void Detach()
    {
        lock (_lock)
        {
            _port = null;
            foreach (string note in _early)
                otherwise(note);
            _early.Clear();
        }
    }
}

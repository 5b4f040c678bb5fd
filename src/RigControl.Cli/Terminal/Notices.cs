using RigControl.Model.Records;

namespace RigControl.Cli.Terminal;

/// <summary>
/// What an operator must not miss among the events: why the rig stopped, until it is reset; why the last act was refused, every
/// reason; and the last few events of all. Written by the scan, read by the screen.
/// </summary>
internal sealed class Notices
{
    // More lines than any screen shows at a time.
    private const int Most = 40;
    private const int Latest = 4;

    private readonly Lock _lock = new();
    private readonly List<RigEvent> _causes = [];
    private readonly List<RigEvent> _refusals = [];
    private readonly Queue<RigEvent> _recent = new();

    /// <summary>Why it stopped, in the order in which it was seen.</summary>
    public IReadOnlyList<string> Causes => Read(() => [.. _causes.Select(e => e.Text)]);

    /// <summary>Why the last act was refused; empty once another was taken.</summary>
    public IReadOnlyList<string> Refusals => Read(() => [.. _refusals.Select(e => e.Text)]);

    public IReadOnlyList<string> Recent => Read(() => [.. _recent.Select(EventLines.Of)]);

    public void Hear(RigEvent happened)
    {
        lock (_lock)
        {
            Sort(happened);
            _recent.Enqueue(happened);
            if (_recent.Count > Latest)
                _recent.Dequeue();
        }
    }

    private void Sort(RigEvent happened)
    {
        switch (happened.Name)
        {
            case EventNames.Trip when _causes.Count < Most:
                _causes.Add(happened);
                break;
            case EventNames.Refusal when _refusals.Count < Most:
                if (_refusals.Count > 0 && _refusals[^1].Scan != happened.Scan)
                    _refusals.Clear();
                _refusals.Add(happened);
                break;
            case EventNames.OperatorAct or EventNames.Answer:
                _refusals.Clear();
                if (happened.Subject == "reset")
                    _causes.Clear();
                break;
        }
    }

    private string[] Read(Func<string[]> what)
    {
        lock (_lock)
            return what();
    }
}

namespace RigControl.Telemetry.Commands;

/// <summary>The latest correlations, so that a command that comes again is known. Bounded: the oldest is forgotten.</summary>
internal sealed class SeenCorrelations(int most)
{
    private readonly HashSet<string> _seen = [];
    private readonly Queue<string> _order = new();

    /// <summary>Whether it is the first time.</summary>
    public bool Add(string correlation)
    {
        if (!_seen.Add(correlation))
            return false;
        _order.Enqueue(correlation);
        if (_order.Count > most)
            _seen.Remove(_order.Dequeue());
        return true;
    }
}

using RigControl.Telemetry.Payloads;

namespace RigControl.Telemetry.Publishing;

/// <summary>The trips that are active now. Any thread may use it.</summary>
internal sealed class TripBoard
{
    // Clients that one trip names as having seen it; there are a handful.
    private const int MostSeers = 16;

    private readonly Lock _lock = new();
    private readonly Dictionary<string, TripPayload> _active = [];

    public void Set(TripPayload trip)
    {
        lock (_lock)
            _active[trip.Id] = trip;
    }

    public void Clear(string id)
    {
        lock (_lock)
            _active.Remove(id);
    }

    /// <summary>Notes that a client has seen a trip. Returns the trip as it now stands, or null where it is not active.</summary>
    public TripPayload? See(string id, string client)
    {
        lock (_lock)
        {
            if (!_active.TryGetValue(id, out TripPayload? trip))
                return null;
            if (!trip.SeenBy.Contains(client) && trip.SeenBy.Count < MostSeers)
                _active[id] = trip with { SeenBy = [.. trip.SeenBy, client] };
            return _active[id];
        }
    }

    public bool IsActive(string id)
    {
        lock (_lock)
            return _active.ContainsKey(id);
    }

    public IReadOnlyList<TripPayload> Active()
    {
        lock (_lock)
            return [.. _active.Values];
    }
}

using System.Collections.Concurrent;
using RigControl.Model.Records;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>Stands where the run would: counts stops and keeps what was told.</summary>
internal sealed class ToyPort : INetworkPort
{
    private long _last;

    public ConcurrentQueue<(long Id, string Client)> Stops { get; } = new();

    public ConcurrentQueue<(string Name, string Subject, string Text, string Client)> Told { get; } = new();

    /// <summary>Called with every stop, as the scan would take it.</summary>
    public Action<long>? OnStop { get; set; }

    public long Stop(string client)
    {
        long id = Interlocked.Increment(ref _last);
        Stops.Enqueue((id, client));
        OnStop?.Invoke(id);
        return id;
    }

    public void Tell(string name, string subject, string text, string client) => Told.Enqueue((name, subject, text, client));
}

using RigControl.Model.Records;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Outage;
using RigControl.Telemetry.Payloads;

namespace RigControl.Telemetry.Publishing;

/// <summary>
/// Comes by every twentieth of a second, link or no link, and lays what the scan has said into the outbox, so that neither an
/// outage nor a slow disk reaches the scan.
/// </summary>
internal sealed class Collector(Topics topics, string run, RunSight sight, TripBoard trips, Outbox outbox, PendingStops pending, TimeProvider time)
{
    /// <summary>How often it comes by.</summary>
    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(20);

    private readonly Lock _lock = new();
    private long _ordinal;

    public async Task Run(CancellationToken ended)
    {
        using PeriodicTimer timer = new(Period, time);
        try
        {
            while (await timer.WaitForNextTickAsync(ended).ConfigureAwait(false))
                Collect();
        }
        catch (OperationCanceledException)
        {
            // Asked to end.
        }
    }

    /// <summary>Collects what there is.</summary>
    public void Collect()
    {
        lock (_lock)
        {
            while (sight.TryCollect(out Heard? word))
                Put(word!);
        }

        pending.Settle();
    }

    /// <summary>Marks a trip as seen; false where it is not active.</summary>
    public bool See(string id, string client)
    {
        // What the scan has said just now may be the very trip.
        Collect();
        if (trips.See(id, client) is not { } seen)
            return false;
        outbox.Add(new Outbound(OutboundKind.Trip, id, run, seen.Of(run)));
        return true;
    }

    public void Finish(RunEnd end, IReadOnlyList<Figure> figures)
    {
        Collect();
        outbox.Add(new Outbound(OutboundKind.Figure, "", run, FigurePayload.Of(run, end, figures)));
    }

    private void Put(Heard word)
    {
        if (word.Event is not { } happened)
        {
            trips.Clear(word.Cleared);
            outbox.Add(new Outbound(OutboundKind.TripCleared, word.Cleared, run, []));
            return;
        }

        outbox.Add(new Outbound(OutboundKind.Event, happened.Subject, run, EventPayload.Of(happened, topics, run, ++_ordinal, word.Time)));
        if (happened.Name != EventNames.Trip || !word.Stands)
            return;
        TripPayload trip = TripPayload.Of(happened, word.Time);
        trips.Set(trip);
        outbox.Add(new Outbound(OutboundKind.Trip, trip.Id, run, trip.Of(run)));
    }
}

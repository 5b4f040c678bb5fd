namespace RigControl.Telemetry.Outage;

/// <summary>A message that has to arrive, on its way out.</summary>
/// <param name="Kind">What it is, which decides how it is published.</param>
/// <param name="Subject">Id of the trip; empty for the others.</param>
/// <param name="Run">Run it belongs to.</param>
/// <param name="Payload">What is published; empty to clear a trip.</param>
internal sealed record Outbound(OutboundKind Kind, string Subject, string Run, byte[] Payload)
{
    /// <summary>Place in the outbox, given by it.</summary>
    public long Number { get; init; }
}

/// <summary>What a message that has to arrive is about.</summary>
internal enum OutboundKind
{
    Event = 0,
    Trip = 1,
    TripCleared = 2,
    Figure = 3,
}

using RigControl.Model.Records;

namespace RigControl.Telemetry.Publishing;

/// <summary>A word of the scan on its way to the outbox.</summary>
/// <param name="Event">What happened; null where a latch was let go.</param>
/// <param name="Cleared">Trip whose latch was let go; empty where something happened.</param>
/// <param name="Stands">For a trip, whether its latch still stands when it is told.</param>
/// <param name="Time">By the wall clock.</param>
internal sealed record Heard(RigEvent? Event, string Cleared, bool Stands, DateTimeOffset Time);

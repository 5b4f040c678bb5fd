using RigControl.Telemetry.Payloads;

namespace RigControl.Telemetry.Commands;

/// <summary>The receipt of a command on its way out.</summary>
/// <param name="Name">stop or acknowledge.</param>
/// <param name="Topic">Where it goes.</param>
/// <param name="CorrelationData">What the sender put beside the payload, given back as it came; null where there was none.</param>
internal sealed record Answer(NetworkCommand Command, string Name, string Topic, byte[]? CorrelationData)
{
    /// <summary>Why the command was refused; null when it was accepted.</summary>
    public string? Reason { get; init; }

    public byte[] Payload(DateTimeOffset time) => new ReceiptPayload(Name, Command.Correlation, Command.Client, Reason, time).Of();
}

namespace RigControl.Telemetry.Payloads;

/// <summary>The one answer to a command.</summary>
/// <param name="Reason">Why it was not accepted; null when it was.</param>
internal sealed record ReceiptPayload(string Command, string Correlation, string Client, string? Reason, DateTimeOffset Time)
{
    public byte[] Of() => Json.Object(json =>
    {
        json.WriteString("command", Command);
        json.WriteString("correlation", Correlation);
        json.WriteString("client", Client);
        json.WriteBoolean("accepted", Reason is null);
        json.WriteString("reason", Reason);
        json.WriteString("time", Json.Time(Time));
    });
}

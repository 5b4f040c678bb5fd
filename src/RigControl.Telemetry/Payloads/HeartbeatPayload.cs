namespace RigControl.Telemetry.Payloads;

/// <summary>Proof of life, and what was lost or refused on the way. The counts belong to the process and only rise.</summary>
/// <param name="Scan">Latest scan.</param>
/// <param name="Lateness">Worst lateness of the scan lately, s; null where the rig does not say it.</param>
/// <param name="Dropped">Blocks of data dropped.</param>
/// <param name="Undelivered">Events, trips and figures given up.</param>
/// <param name="Refused">Commands refused.</param>
internal sealed record HeartbeatPayload(long Scan, double? Lateness, long Dropped, long Undelivered, long Refused)
{
    public byte[] Of(long session, DateTimeOffset time) => Json.Object(json =>
    {
        json.WriteNumber("session", session);
        json.WriteNumber("scan", Scan);
        json.WriteNumber("lateness", Lateness);
        json.WriteNumber("dropped", Dropped);
        json.WriteNumber("undelivered", Undelivered);
        json.WriteNumber("refused", Refused);
        json.WriteString("time", Json.Time(time));
    });
}

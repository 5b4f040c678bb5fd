namespace RigControl.Telemetry.Payloads;

/// <summary>Whether the rig's host is there. Retained; the broker itself says lost when the link breaks.</summary>
internal static class StatusPayload
{
    public const string Starting = "starting";
    public const string Online = "online";
    public const string Offline = "offline";
    public const string Lost = "lost";

    /// <param name="since">When that began; for lost, when the link was made that broke.</param>
    public static byte[] Of(string status, long session, DateTimeOffset since) => Json.Object(json =>
    {
        json.WriteString("status", status);
        json.WriteNumber("session", session);
        json.WriteString("since", Json.Time(since));
    });
}

using RigControl.Model.Records;

namespace RigControl.Telemetry.Payloads;

/// <summary>
/// What happened, as a CloudEvent 1.0 in its JSON form. Source and id name it for good, also when it is sent twice. The envelope is
/// what the standard's own JSON Schema wants (read).
/// </summary>
internal static class EventPayload
{
    public const string ContentType = "application/cloudevents+json";

    /// <param name="ordinal">Number of the event in the run, from 1.</param>
    public static byte[] Of(RigEvent happened, Topics topics, string run, long ordinal, DateTimeOffset time) => Json.Object(json =>
    {
        json.WriteString("specversion", "1.0");
        json.WriteString("id", $"{run}-{ordinal}");
        json.WriteString("source", "/" + topics.Root);
        json.WriteString("type", $"rigcontrol.{happened.Name}.v1");
        json.WriteString("time", Json.Time(time));
        // The standard wants no subject rather than an empty one.
        if (happened.Subject.Length > 0)
            json.WriteString("subject", happened.Subject);
        json.WriteString("datacontenttype", "application/json");
        json.WriteStartObject("data");
        json.WriteString("run", run);
        json.WriteNumber("at", Json.Seconds(happened.At));
        json.WriteNumber("scan", happened.Scan);
        json.WriteString("text", happened.Text);
        json.WriteStartObject("values");
        foreach ((string name, object value) in happened.Data)
            json.WriteAny(name, value);
        json.WriteEndObject();
        json.WriteEndObject();
    });
}

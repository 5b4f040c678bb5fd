using System.Text;
using System.Text.Json;

namespace RigControl.Telemetry.Outage;

/// <summary>A message of the outbox as one line of text, and the mark that one was delivered.</summary>
internal static class OutboundLine
{
    public static byte[] Of(Outbound message)
    {
        using MemoryStream line = new();
        using (Utf8JsonWriter json = new(line))
        {
            json.WriteStartObject();
            json.WriteNumber("number", message.Number);
            json.WriteString("kind", message.Kind.ToString());
            json.WriteString("subject", message.Subject);
            json.WriteString("run", message.Run);
            json.WriteBase64String("payload", message.Payload);
            json.WriteEndObject();
        }

        line.WriteByte((byte)'\n');
        return line.ToArray();
    }

    /// <summary>The mark that everything up to a number was delivered or given up.</summary>
    public static byte[] Done(long number) => Encoding.ASCII.GetBytes($"{{\"done\":{number}}}\n");

    /// <summary>A message, the number of a mark, or neither where the line is torn or foreign.</summary>
    public static (Outbound? Message, long Done) Read(string line)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(line);
            JsonElement root = document.RootElement;
            if (root.TryGetProperty("done", out JsonElement done))
                return (null, done.GetInt64());
            OutboundKind kind = Enum.Parse<OutboundKind>(root.GetProperty("kind").GetString()!);
            return (new Outbound(kind, root.GetProperty("subject").GetString()!, root.GetProperty("run").GetString()!, root.GetProperty("payload").GetBytesFromBase64())
            {
                Number = root.GetProperty("number").GetInt64(),
            }, 0);
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or FormatException or InvalidOperationException or ArgumentException)
        {
            return default;
        }
    }
}

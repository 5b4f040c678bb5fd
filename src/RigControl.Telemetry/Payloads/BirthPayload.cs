using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Telemetry.Payloads;

/// <summary>What a reader must know to understand the rest: who speaks, in which version, with which channels.</summary>
internal static class BirthPayload
{
    /// <summary>Major.minor of the payloads' schemas; the major number stands in every topic.</summary>
    public const string SchemaVersion = "1.0";

    public static byte[] Of(RunHeader header, TimeSpan scanPeriod, long session) => Json.Object(json =>
    {
        json.WriteString("schema", SchemaVersion);
        json.WriteNumber("session", session);
        json.WriteString("software", header.Software);
        json.WriteString("configuration", HashOf(header));
        json.WriteString("rig", header.Rig.Name);
        json.WriteString("article", header.Article.Name);
        json.WriteString("procedure", header.Procedure.Name);
        json.WriteString("run", header.Run);
        json.WriteString("startedAt", Json.Time(header.StartedAt));
        json.WriteBoolean("simulated", header.Simulated);
        json.WriteNumber("scanPeriod", Json.Seconds(scanPeriod));
        WriteChannels(json, header.Channels);
        json.WriteStartArray("interlocks");
        foreach (InterlockIdentity interlock in header.Interlocks)
            json.WriteStringValue(interlock.Id);
        json.WriteEndArray();
    });

    /// <summary>SHA-256 over the three documents and every plugin, in hexadecimal: equal means the same configuration.</summary>
    public static string HashOf(RunHeader header)
    {
        IEnumerable<string> parts = [header.Rig.Text, header.Article.Text, header.Procedure.Text, .. header.Plugins.Select(p => $"{p.Assembly} {p.Digest}")];
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\0', parts))));
    }

    private static void WriteChannels(Utf8JsonWriter json, IReadOnlyList<Channel> channels)
    {
        json.WriteStartArray("channels");
        foreach (Channel channel in channels)
        {
            json.WriteStartObject();
            json.WriteString("name", channel.Name);
            json.WriteString("unit", Ucum.Of(channel.Declaration.Unit));
            json.WriteNumber("minimum", (double?)channel.Declaration.Minimum);
            json.WriteNumber("maximum", (double?)channel.Declaration.Maximum);
            json.WriteNumber("resolution", (double?)channel.Declaration.Resolution);
            json.WriteNumber("period", Json.Seconds(channel.Declaration.Period));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}

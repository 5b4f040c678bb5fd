using System.Reflection;
using System.Text.Json;
using Json.Schema;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>The published schemas of the payloads.</summary>
internal static class Schemas
{
    private static readonly string Folder = typeof(Schemas).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "SchemaFolder").Value!;

    private static readonly Dictionary<string, JsonSchema> All = Directory.EnumerateFiles(Folder, "*.schema.json")
        .ToDictionary(f => Path.GetFileName(f)[..^".schema.json".Length], f => JsonSchema.FromText(File.ReadAllText(f)));

    public static IReadOnlyCollection<string> Names => All.Keys;

    public static bool Accepts(string name, string payload)
    {
        using JsonDocument document = JsonDocument.Parse(payload);
        return All[name].Evaluate(document.RootElement).IsValid;
    }

    /// <summary>Holds a published message against the schema of its topic.</summary>
    public static void Check(Topics topics, string topic, string payload)
    {
        Assert.StartsWith(topics.Root + "/", topic);
        string kind = topic[(topics.Root.Length + 1)..].Split('/')[0];
        Assert.Contains(kind, Names);
        // A trip is cleared by an empty message.
        if (kind == "trip" && payload.Length == 0)
            return;
        Assert.True(Accepts(kind, payload), $"{topic} is not as its schema says: {payload}");
    }
}

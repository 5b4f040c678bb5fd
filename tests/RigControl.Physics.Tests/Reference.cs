using System.Globalization;
using System.Text.Json.Nodes;

namespace RigControl.Physics.Tests;

/// <summary>Reads the published data that the build lays beside the tests; sources in shared/reference/SOURCES.md.</summary>
internal static class Reference
{
    public static JsonNode Json(string file) => JsonNode.Parse(File.ReadAllText(Find(file)))!;

    /// <summary>Rows of a table without its header.</summary>
    public static string[][] Rows(string file)
        => [.. File.ReadLines(Find(file)).Skip(1).Select(line => line.Split(','))];

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    public static double Value(this JsonNode node, string name) => node[name]!.GetValue<double>();

    /// <summary>The entry of a list that carries an id.</summary>
    public static JsonNode Entry(this JsonNode list, string id) => list.AsArray().Single(entry => (string?)entry!["id"] == id)!;

    private static string Find(string file) => Path.Combine(AppContext.BaseDirectory, "reference", file);
}

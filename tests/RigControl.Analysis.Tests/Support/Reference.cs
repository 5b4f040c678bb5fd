using System.Globalization;
using System.Text.Json.Nodes;

namespace RigControl.Analysis.Tests.Support;

/// <summary>The published data of shared/reference; SOURCES.md says where each comes from.</summary>
internal static class Reference
{
    public static JsonNode Json(string file) => JsonNode.Parse(File.ReadAllText(Path(file)))!;

    /// <summary>Rows of a comma- or tab-separated file as numbers, rows that are no numbers left out.</summary>
    public static double[][] Rows(string file) =>
        [.. File.ReadLines(Path(file)).Select(l => l.Split([',', '\t'])).Where(c => c.All(IsNumber)).Select(c => c.Select(Number).ToArray())];

    /// <summary>The first columns of such a file, of the rows in which they are numbers.</summary>
    public static double[][] Rows(string file, int columns) =>
        [.. File.ReadLines(Path(file)).Select(l => l.Split(',')[..columns]).Where(c => c.All(IsNumber)).Select(c => c.Select(Number).ToArray())];

    /// <summary>Cells of every line of such a file, its head among them.</summary>
    public static IEnumerable<string[]> Lines(string file) => File.ReadLines(Path(file)).Select(l => l.Split(','));

    public static double Number(JsonNode node, string name) => node[name]!.GetValue<double>();

    public static double Number(string cell) => double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static bool IsNumber(string cell) => double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out _);

    private static string Path(string file) => System.IO.Path.Combine(AppContext.BaseDirectory, "reference", file);
}

using System.Text.RegularExpressions;

namespace RigControl.Architecture.Tests;

/// <summary>The tables of SAFETY.md, and the tests that carry its numbers.</summary>
internal static partial class SafetyPage
{
    private const string Hazards = "## Hazards", Remaining = "## What remains to you";

    /// <summary>Each requirement with the tests that hold it.</summary>
    public static IEnumerable<(string Number, string[] Tests)> Required() => File.ReadLines(Page).Select(l => Row().Match(l)).Where(m => m.Success)
        .Select(m => (m.Groups[1].Value, Tests(m.Groups[2].Value)));

    /// <summary>Each test of the repository with the number that it carries.</summary>
    public static IEnumerable<(string Number, string Test)> Carried() => Repository.Sources("tests")
        .SelectMany(f => Trait().Matches(File.ReadAllText(f)))
        .SelectMany(m => Number().Matches(m.Groups[1].Value).Select(n => (n.Value, m.Groups[2].Value)));

    /// <summary>Each hazard with what stands against it.</summary>
    public static IEnumerable<(string Hazard, string Control, string[] Numbers, string[] Tests)> Answered() =>
        Rows(Hazards).Select(c => (c[0], c[1], Number().Matches(c[2]).Select(m => m.Value).ToArray(), Tests(c[3])));

    /// <summary>The cells of each row of what the program has no control against.</summary>
    public static IEnumerable<string[]> Left() => Rows(Remaining);

    private static string Page => Repository.At("SAFETY.md");

    // Below the heading, without the head of the table and its rule.
    private static IEnumerable<string[]> Rows(string heading) => File.ReadLines(Page)
        .SkipWhile(l => !l.StartsWith(heading, StringComparison.Ordinal)).Skip(1)
        .TakeWhile(l => !l.StartsWith("## ", StringComparison.Ordinal))
        .Where(l => l.StartsWith('|')).Skip(2)
        .Select(l => l.Trim().Trim('|').Split('|', StringSplitOptions.TrimEntries));

    private static string[] Tests(string cell) => [.. Quoted().Matches(cell).Select(q => q.Groups[1].Value)];

    [GeneratedRegex(@"^\| (SAF-\d{3}) \|[^|]*\|(.*)\|$")]
    private static partial Regex Row();

    [GeneratedRegex("`([A-Za-z0-9_]+)`")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"SAF-\d{3}")]
    private static partial Regex Number();

    // One or more traits above a test, among its other attributes.
    [GeneratedRegex(@"((?:\[Trait\(""Requirement"", ""SAF-\d{3}""\)\]\s*)+)(?:\[[^\n]*\]\s*)*public (?:async )?(?:void|Task) ([A-Za-z0-9_]+)\(")]
    private static partial Regex Trait();
}

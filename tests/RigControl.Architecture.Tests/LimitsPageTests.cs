using System.Text;
using System.Text.RegularExpressions;

namespace RigControl.Architecture.Tests;

/// <summary>
/// The table of docs/limits.md is made from the code: every time that is a constant, and every number whose name begins as a
/// bound's does, with its value and the comment above it. UPDATE_DOCS=1 writes it anew.
/// </summary>
public partial class LimitsPageTests
{
    private const string Begin = "<!-- made from the code -->\n";
    private const string End = "<!-- end of what is made from the code -->";

    // What the models and the figures reckon with are data, not bounds of the program.
    private static readonly string[] NoBounds = ["src/RigControl.Physics", "src/RigControl.Analysis"];

    [Fact]
    public void The_page_of_limits_lists_every_bound_of_the_program_and_nothing_else()
    {
        string path = Repository.At("docs", "limits.md");
        string page = File.ReadAllText(path).ReplaceLineEndings("\n");
        int from = page.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length;
        int to = page.IndexOf(End, StringComparison.Ordinal);
        Assert.True(from >= Begin.Length && to >= from, "the page has lost its marks");
        if (Environment.GetEnvironmentVariable("UPDATE_DOCS") == "1")
        {
            File.WriteAllText(path, page[..from] + Table() + page[to..]);
            return;
        }

        Assert.Equal(Table(), page[from..to]);
    }

    [Fact]
    public void Every_bound_says_why_it_is_so() => Assert.Empty(Bounds().Where(b => b.Reason.Length == 0).Select(b => $"{b.Room} {b.Name}: write the reason above it"));

    [Theory]
    [InlineData("    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);", true)]
    [InlineData("    public const int MostWaiting = 64;", true)]
    [InlineData("    public const int CallAttempts = 64;", true)]
    [InlineData("    private const int Speed = 0;", false)]
    [InlineData("    private const double ZeroCelsius = 273.15;", false)]
    public void A_bound_is_known_by_its_type_or_its_name(string line, bool isBound) => Assert.Equal(isBound, Declaration().Match(line) is { Success: true } m && IsBound(m));

    private static string Table()
    {
        StringBuilder text = new("\n| where | bound | value | what it is, and why |\n|---|---|---|---|\n");
        foreach (Bound bound in Bounds())
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"| {bound.Room} | `{bound.Name}` | {bound.Value} | {bound.Reason} |\n");
        return text.Append('\n').ToString();
    }

    private static IEnumerable<Bound> Bounds() => Repository.Sources("src", "plugins")
        .Where(f => !NoBounds.Any(n => Repository.Short(f).StartsWith(n, StringComparison.Ordinal)))
        .Order(StringComparer.Ordinal)
        .SelectMany(Bounds);

    private static IEnumerable<Bound> Bounds(string file)
    {
        string[] lines = File.ReadAllLines(file);
        string room = Repository.Short(file).Split('/')[1]["RigControl.".Length..];
        for (int i = 0; i < lines.Length; i++)
        {
            if (Declaration().Match(lines[i]) is { Success: true } match && IsBound(match))
                yield return new Bound(room, $"{Path.GetFileNameWithoutExtension(file)}.{match.Groups["name"].Value}", Value(match.Groups["value"].Value), ReasonAbove(lines, i));
        }
    }

    private static bool IsBound(Match declaration) => declaration.Groups["type"].Value == "TimeSpan" || BoundName().IsMatch(declaration.Groups["name"].Value);

    // TimeSpan.FromMilliseconds(500) → 500 ms; the rest stands as it is written.
    private static string Value(string written)
    {
        foreach ((string unit, string symbol) in new[] { ("Microseconds", "us"), ("Milliseconds", "ms"), ("Seconds", "s"), ("Minutes", "min"), ("Hours", "h"), ("Days", "d") })
            written = Regex.Replace(written, $@"TimeSpan\.From{unit}\(([^)]*)\)", $"$1 {symbol}");
        return written;
    }

    private static string ReasonAbove(string[] lines, int at)
    {
        List<string> said = [];
        for (int i = at - 1; i >= 0 && lines[i].TrimStart().StartsWith("//", StringComparison.Ordinal); i--)
            said.Insert(0, lines[i].TrimStart().TrimStart('/').Trim());
        string text = Regex.Replace(string.Join(' ', said), "<see cref=\"([^\"]*)\"/>", "`$1`");
        return Regex.Replace(text, "<[^>]*>", "").Replace("|", "\\|", StringComparison.Ordinal).Trim();
    }

    [GeneratedRegex(@"^\s*(?:public|private|internal|protected) (?:const (?<type>int|long|double|uint|ushort|byte)|static readonly (?<type>TimeSpan|int|double)) (?<name>\w+) = (?<value>[^;]*);")]
    private static partial Regex Declaration();

    [GeneratedRegex("^(Most|Fewest|Longest|Shortest|Largest|Limit|Attempts|Chunks|Glances|Recent|BusySeconds$|Bytes$|Depth$|Nodes$|Interlocks$|Devices$|Commands$|Conditions$|Steps$)|(Deadline|Capacity|Allowed|Wait|Attempts|PerRead|Buffer|Periods|ThatStops)$")]
    private static partial Regex BoundName();

    private sealed record Bound(string Room, string Name, string Value, string Reason);
}

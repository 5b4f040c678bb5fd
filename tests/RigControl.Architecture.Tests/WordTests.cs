using System.Diagnostics;
using System.Text.RegularExpressions;

namespace RigControl.Architecture.Tests;

/// <summary>What must not stand anywhere in the repository.</summary>
public partial class WordTests
{
    private static readonly string[] Endings = [".cs", ".c", ".h", ".md", ".yaml", ".json", ".sh", ".csproj", ".props", ".txt"];

    [Fact]
    public void No_file_holds_a_path_of_somebodys_machine() => Assert.Empty(Lines(MachinePath()));

    [Fact]
    public void Nothing_is_left_to_do_in_the_text() => Assert.Empty(Lines(LeftOpen()));

    [Fact]
    public void A_performance_level_is_only_ever_denied() =>
        Assert.All(Lines(PerformanceLevel()), l => Assert.Contains("no performance level", l, StringComparison.Ordinal));

    [Fact]
    public void The_folders_at_the_top_are_the_ones_that_the_documents_name()
    {
        string[] known = ["src", "plugins", "tests", "procedures", "docs", "shared"];
        IEnumerable<string> found = Tracked().Where(f => f.Contains('/', StringComparison.Ordinal)).Select(f => f.Split('/')[0]).Distinct().Where(d => d[0] != '.');
        Assert.Equal(known.Order(), found.Order());
    }

    private static IEnumerable<string> Lines(Regex unwanted) => Tracked()
        .Where(f => Endings.Contains(Path.GetExtension(f)) && !f.EndsWith("WordTests.cs", StringComparison.Ordinal) && File.Exists(Repository.At(f)))
        .SelectMany(f => File.ReadLines(Repository.At(f)).Where(l => unwanted.IsMatch(l)).Select(l => $"{f}: {l.Trim()}"));

    private static string[] Tracked()
    {
        using Process git = Process.Start(new ProcessStartInfo("git", "ls-files") { WorkingDirectory = Repository.Root, RedirectStandardOutput = true })!;
        string[] files = git.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        git.WaitForExit();
        return files;
    }

    [GeneratedRegex(@"(?<![\w.])/(home|root|work|Users)/\w")]
    private static partial Regex MachinePath();

    [GeneratedRegex(@"performance level|\bPL [a-e]\b|\bSIL [1-4]\b|PFHd", RegexOptions.IgnoreCase)]
    private static partial Regex PerformanceLevel();

    [GeneratedRegex(@"\b(TODO|FIXME|HACK)\b|NotImplementedException|Skip = """)]
    private static partial Regex LeftOpen();
}

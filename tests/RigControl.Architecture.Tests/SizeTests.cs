using System.Text.RegularExpressions;

namespace RigControl.Architecture.Tests;

/// <summary>A file is one thing and a method fits a screen.</summary>
public partial class SizeTests
{
    private const int MostLinesInFile = 400;
    private const int MostLinesInMethod = 60;

    [Fact]
    public void No_file_is_longer_than_400_lines()
    {
        IEnumerable<string> sources = Repository.Sources("src", "plugins", "tests")
            .Concat(Directory.EnumerateFiles(Repository.Root, "*.*", SearchOption.AllDirectories).Where(IsFirmware));
        Assert.Empty(sources.Where(f => File.ReadLines(f).Count() > MostLinesInFile).Select(Repository.Short));
    }

    [Fact]
    public void The_firmware_is_among_the_files_that_are_measured() =>
        Assert.True(Directory.EnumerateFiles(Repository.At("shared", "board"), "*.*", SearchOption.AllDirectories).Count(IsFirmware) > 20);

    [Fact]
    public void A_method_that_does_not_fit_a_screen_is_seen()
    {
        string[] lines = ["    public void Endless()", "    {", .. Enumerable.Repeat("        Step();", MostLinesInMethod + 1), "    }"];
        (string name, int length) = Assert.Single(Methods(lines));
        Assert.Equal(("public void Endless()", MostLinesInMethod + 1), (name, length));
    }

    [Fact]
    public void No_method_is_longer_than_60_lines()
    {
        List<string> long_ = [];
        foreach (string file in Repository.Sources("src", "plugins", "tests"))
            long_.AddRange(Methods(File.ReadAllLines(file)).Where(m => m.Lines > MostLinesInMethod).Select(m => $"{Repository.Short(file)}: {m.Name} has {m.Lines} lines"));
        Assert.Empty(long_);
    }

    [Fact]
    public void Tests_are_more_than_the_code_they_hold()
    {
        int code = Repository.Sources("src", "plugins").Sum(Lines);
        int tests = Repository.Sources("tests").Sum(Lines);
        Assert.True(tests > code, $"{tests} lines of tests for {code} lines of code");
    }

    private static bool IsFirmware(string file) => Path.GetExtension(file) is ".c" or ".h" && !file.Contains("/bin/", StringComparison.Ordinal) && !file.Contains("/obj/", StringComparison.Ordinal);

    // Blank lines and comments count for neither side.
    private static int Lines(string file) => File.ReadLines(file).Select(l => l.Trim()).Count(l => l.Length > 0 && !l.StartsWith("//", StringComparison.Ordinal));

    // Members of a type stand four or eight columns in; a body opens and closes at the member's own column.
    private static IEnumerable<(string Name, int Lines)> Methods(string[] lines)
    {
        for (int i = 1; i < lines.Length; i++)
        {
            Match open = OpeningBrace().Match(lines[i]);
            if (!open.Success || !Signature().IsMatch(lines[i - 1]) || TypeHead().IsMatch(lines[i - 1]))
                continue;
            string closing = open.Groups[1].Value + "}";
            int close = Array.FindIndex(lines, i, l => l.StartsWith(closing, StringComparison.Ordinal));
            yield return (lines[i - 1].Trim(), close - i - 1);
        }
    }

    [GeneratedRegex(@"^((?:    ){1,2})\{$")]
    private static partial Regex OpeningBrace();

    // A nested type with a primary constructor ends like a method.
    [GeneratedRegex(@"\b(class|record|struct)\b")]
    private static partial Regex TypeHead();

    [GeneratedRegex(@"\)\s*$")]
    private static partial Regex Signature();
}

using System.Text.RegularExpressions;

namespace RigControl.EndToEnd.Tests;

/// <summary>Every command that the README shows is run as it stands there, or, where it waits for a person, is known to the program.</summary>
public sealed partial class ReadmeTests : IDisposable
{
    private static readonly string Readme = File.ReadAllText(Path.Combine(Tool.Root, "README.md"));

    // They ask, wait, or need a board.
    private static readonly string[] ForAPerson = ["new", "signals", "board", "watch"];

    private readonly Tool _tool = new();

    [Fact]
    public void Every_command_of_the_README_works_after_its_first_one()
    {
        string[] commands = [.. Shown().Matches(Readme).Select(m => m.Groups[1].Value)];
        Assert.True(commands.Length >= 12, string.Join('\n', commands));
        Assert.Equal(0, _tool.Run("run", "procedures/first-power.yaml", "--rig", "procedures/simulated.rig.yaml", "--article", "procedures/bench-motor.article.yaml", "--pace", "max").ExitCode);
        foreach (string command in commands)
        {
            string[] words = command.Split(' ');
            bool waits = ForAPerson.Contains(words[0]) || (words[0] == "run" && !words.Contains("--pace"));
            Said said = _tool.Run(waits ? [.. words, "--help"] : words);
            Assert.True(said.ExitCode == 0, $"{command}: {said.Errors}");
            Assert.NotEqual("", said.Output);
        }
    }

    [Fact]
    public void Every_file_that_the_README_and_the_first_pages_point_to_is_there()
    {
        foreach (string page in new[] { "README.md", "docs/kit-list.md", "docs/wiring.md", "docs/first-session.md" })
        {
            string text = File.ReadAllText(Path.Combine(Tool.Root, page));
            foreach (Match link in Link().Matches(text))
                Assert.True(File.Exists(Path.Combine(Tool.Root, Path.GetDirectoryName(page)!, link.Groups[1].Value)), $"{page}: {link.Groups[1].Value}");
            foreach (Match named in Ready().Matches(text))
                Assert.True(File.Exists(Path.Combine(Tool.Root, named.Value)), $"{page}: {named.Value}");
        }
    }

    public void Dispose() => _tool.Dispose();

    [GeneratedRegex("`… -- ([^`]+)`")]
    private static partial Regex Shown();

    [GeneratedRegex(@"\]\(([^)#]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"procedures/[a-z0-9.-]+\.yaml")]
    private static partial Regex Ready();
}

using YamlDotNet.Core;

namespace RigControl.Documents.Text;

/// <summary>Says in plain words where a text stops being YAML.</summary>
internal static class MalformedText
{
    public static void Report(Mark mark, string message, string text, ProblemList problems)
    {
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        int line = (int)Math.Clamp(mark.Line, 1, lines.Length);
        if (message.Contains("tab") && IndentingTab(lines, line) is { } tab)
        {
            problems.Add(tab, "a tab stands in the indentation", "indent with spaces");
            return;
        }
        int column = (int)Math.Clamp(mark.Column, 1, lines[line - 1].Length + 1);
        problems.Add(new(line, column), $"this is not YAML: {Plain(message)}", Remedy(lines, line));
    }

    // The parser names the beginning of what it was reading, not the tab.
    private static Place? IndentingTab(string[] lines, int from)
    {
        for (int i = from - 1; i < lines.Length; i++)
        {
            int indentation = lines[i].Length - lines[i].TrimStart(' ', '\t').Length;
            int tab = lines[i].IndexOf('\t', 0, indentation);
            if (tab >= 0)
                return new(i + 1, tab + 1);
        }
        return null;
    }

    private static string Plain(string message)
    {
        string text = message.Trim().TrimEnd('.');
        return text.Length == 0 || text.Any(char.IsControl) ? "it cannot be read here" : char.ToLowerInvariant(text[0]) + text[1..];
    }

    // The fault often shows one line late: what was left open above ends here.
    private static string Remedy(string[] lines, int line) =>
        lines.Take(line).TakeLast(2).Any(l => l.Count(c => c is '{' or '[') != l.Count(c => c is '}' or ']'))
            ? "close every bracket, and put commas between what is inside"
            : "check indentation, colons and quotes on this line and the one above";
}

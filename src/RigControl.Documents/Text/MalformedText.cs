using YamlDotNet.Core;

namespace RigControl.Documents.Text;

/// <summary>Says in plain words where a text stops being YAML.</summary>
internal static class MalformedText
{
    public static void Report(Mark mark, string message, Lines lines, ProblemList problems)
    {
        Place place = lines.At(mark);
        if (message.Contains("tab") && IndentingTab(lines, place.Line) is { } tab)
            problems.Add(tab, "a tab stands in the indentation", "indent with spaces");
        else
            problems.Add(place, $"this is not YAML: {Plain(message)}", Remedy(lines, place.Line));
    }

    // The parser names the beginning of what it was reading, not the tab.
    private static Place? IndentingTab(Lines lines, int from)
    {
        for (int number = from; number <= lines.Count; number++)
        {
            int tab = lines[number].IndexOf('\t');
            if (tab >= 0 && lines[number].AsSpan(0, tab).Trim(' ').IsEmpty)
                return new(number, tab + 1);
        }
        return null;
    }

    private static string Plain(string message)
    {
        string text = message.Trim().TrimEnd('.');
        return text.Length == 0 || text.Any(char.IsControl) ? "it cannot be read here" : char.ToLowerInvariant(text[0]) + text[1..];
    }

    // The fault often shows one line late: what was left open above ends here.
    private static string Remedy(Lines lines, int line) =>
        LeftOpen(lines[line]) || LeftOpen(lines[Math.Max(1, line - 1)])
            ? "close every bracket, and put commas between what is inside"
            : "check indentation, colons and quotes on this line and the one above";

    private static bool LeftOpen(string line) => line.Count(c => c is '{' or '[') != line.Count(c => c is '}' or ']');
}

using YamlDotNet.Core;

namespace RigControl.Documents.Text;

/// <summary>Says in plain words where a text stops being YAML.</summary>
internal static class MalformedText
{
    public static (Place Place, string What, string Remedy) Explain(YamlException fault, string text)
    {
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        int line = (int)Math.Clamp(fault.Start.Line, 1, lines.Length);
        int column = (int)Math.Clamp(fault.Start.Column, 1, lines[line - 1].Length + 1);
        return (new(line, column), $"this is not YAML: {Plain(fault.Message)}", Remedy(lines, line));
    }

    private static string Plain(string message)
    {
        string text = Words.Quote(message.Trim().TrimEnd('.')).Trim('`');
        return text.Length == 0 ? "it cannot be read" : char.ToLowerInvariant(text[0]) + text[1..];
    }

    // The fault often shows one line late: what was left open above ends here.
    private static string Remedy(string[] lines, int line)
    {
        var near = lines.Take(line).TakeLast(2);
        if (near.Any(l => l.TrimStart(' ').StartsWith('\t')))
            return "indent with spaces, not with tabs";
        return near.Any(l => l.Count(c => c is '{' or '[') != l.Count(c => c is '}' or ']'))
            ? "close every bracket, and put commas between what is inside"
            : "check indentation, colons and quotes on this line and the one above";
    }
}

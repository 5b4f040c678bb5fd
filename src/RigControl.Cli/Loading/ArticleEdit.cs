using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Model.Records;

namespace RigControl.Cli.Loading;

/// <summary>Changes single values of an article's file and leaves everything else as it is, comments included.</summary>
internal static partial class ArticleEdit
{
    /// <summary>The text with the value changed; null where the section does not state the key.</summary>
    /// <param name="text">The article's file.</param>
    /// <param name="section">The key at the margin, such as <c>controller</c>; its values may stand in braces or on lines of their own.</param>
    /// <param name="key">The key to change.</param>
    /// <param name="value">What to write.</param>
    /// <param name="was">What stood there; null where nothing was found.</param>
    public static string? Set(string text, string section, string key, string value, out string? was)
    {
        was = null;
        string[] lines = text.Split('\n');
        int head = Array.FindIndex(lines, l => l.StartsWith($"{section}:", StringComparison.Ordinal));
        if (head < 0)
            return null;
        for (int i = head; i == head || (i < lines.Length && !TopLevel().IsMatch(lines[i])); i++)
        {
            Match match = Regex.Match(lines[i], Entry(key), RegexOptions.CultureInvariant);
            if (!match.Success)
                continue;
            was = match.Groups["value"].Value;
            lines[i] = $"{match.Groups["before"].Value}{value}{Rest(match, value)}";
            return string.Join('\n', lines);
        }

        return null;
    }

    /// <summary>The text with a line at its end that says which run changed what.</summary>
    public static string WithHistory(string text, RunHeader header, string change) =>
        string.Create(CultureInfo.InvariantCulture, $"{text.TrimEnd('\n')}\n# {header.StartedAt.UtcDateTime:yyyy-MM-dd}, run {header.Run}: {change}\n");

    // A comment stays in its column where the new value leaves room for it.
    private static string Rest(Match match, string value)
    {
        string after = match.Groups["after"].Value;
        int longer = value.Length - match.Groups["value"].Length;
        string comment = after.TrimStart(' ');
        return comment.StartsWith('#') ? new string(' ', Math.Max(1, after.Length - comment.Length - longer)) + comment : after;
    }

    // On a line of its own, or between braces; never in a comment.
    private static string Entry(string key) =>
        $@"^(?<before>(?:\s+|[^#]*[{{,]\s*){key}:[ \t]*)(?<value>[^,}}#\r]*?)(?<after>[ \t]*(?:[,}}#].*)?\r?)$";

    [GeneratedRegex(@"^[^\s#]")]
    private static partial Regex TopLevel();
}

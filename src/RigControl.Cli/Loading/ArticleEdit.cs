using System.Text.RegularExpressions;

namespace RigControl.Cli.Loading;

/// <summary>Changes single values under <c>controller:</c> of an article's file and leaves everything else as it is, comments included.</summary>
internal static partial class ArticleEdit
{
    /// <summary>The text with the value changed; null where the key does not stand on a line of its own.</summary>
    public static string? Set(string text, string key, string value)
    {
        string[] lines = text.Split('\n');
        int head = Array.FindIndex(lines, l => Head().IsMatch(l));
        if (head < 0)
            return null;
        for (int i = head + 1; i < lines.Length && !TopLevel().IsMatch(lines[i]); i++)
        {
            Match match = Entry().Match(lines[i]);
            if (!match.Success || match.Groups["key"].Value != key)
                continue;
            lines[i] = $"{match.Groups["before"].Value}{value}{Comment(match, value)}";
            return string.Join('\n', lines);
        }

        return null;
    }

    // A comment stays in its column where the new value leaves room for it.
    private static string Comment(Match match, string value)
    {
        string after = match.Groups["after"].Value;
        int longer = value.Length - match.Groups["value"].Length;
        int blanks = after.Length - after.TrimStart(' ').Length;
        return after.TrimStart(' ') is { Length: > 0 } comment ? new string(' ', Math.Max(1, blanks - longer)) + comment : after;
    }

    [GeneratedRegex(@"^controller:\s*(#.*)?$")]
    private static partial Regex Head();

    [GeneratedRegex(@"^[^\s#]")]
    private static partial Regex TopLevel();

    [GeneratedRegex(@"^(?<before>\s+(?<key>[a-z-]+):\s*)(?<value>[^#\r]*?)(?<after>\s*(?:#.*)?\r?)$")]
    private static partial Regex Entry();
}

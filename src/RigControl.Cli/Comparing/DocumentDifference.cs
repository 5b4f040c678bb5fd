namespace RigControl.Cli.Comparing;

/// <summary>In which sections two recorded files differ, so that another pack or enclosure is called by its name.</summary>
internal static class DocumentDifference
{
    // More of a section than that is read in the files themselves.
    private const int MostLines = 2;

    // Two of them still make a sentence.
    private const int MostLetters = 60;

    /// <summary>Whether they say the same; comments, blank lines and blanks at the ends of lines say nothing.</summary>
    public static bool Alike(string first, string second) => Lines(first).SequenceEqual(Lines(second));

    /// <summary>Each section that differs, with its lines where they are few: the first file's and then the second's.</summary>
    public static IReadOnlyList<string> Of(string first, string second)
    {
        Dictionary<string, List<string>> a = Sections(first), b = Sections(second);
        return [.. a.Keys.Union(b.Keys).Where(k => !Get(a, k).SequenceEqual(Get(b, k))).Select(k => Told(k, [.. Get(a, k).Except(Get(b, k))], [.. Get(b, k).Except(Get(a, k))]))];
    }

    private static string Told(string section, string[] first, string[] second)
    {
        if (first.Length > MostLines || second.Length > MostLines || first.Concat(second).Any(l => l.Length > MostLetters) || first.Length + second.Length == 0)
            return section;
        return $"{section} ({Side(first)} against {Side(second)})";
    }

    private static string Side(string[] lines) => lines.Length == 0 ? "nothing" : string.Join(", ", lines.Select(l => l.Trim()));

    private static List<string> Get(Dictionary<string, List<string>> sections, string key) => sections.GetValueOrDefault(key) ?? [];

    private static Dictionary<string, List<string>> Sections(string text)
    {
        Dictionary<string, List<string>> sections = [];
        string section = "";
        foreach (string line in Lines(text))
        {
            // A key that stands at the margin begins a section; what stands behind it belongs to it.
            int colon = line.IndexOf(':', StringComparison.Ordinal);
            bool begins = colon > 0 && !char.IsWhiteSpace(line[0]) && line[0] != '-';
            if (begins)
                section = line[..colon];
            string content = begins ? line[(colon + 1)..].Trim() : line;
            if (!sections.TryGetValue(section, out List<string>? lines))
                sections[section] = lines = [];
            if (content.Length > 0)
                lines.Add(content);
        }

        return sections;
    }

    private static IEnumerable<string> Lines(string text) => text.Split('\n').Select(Bare).Where(l => l.Length > 0);

    // A number sign begins a comment at the margin or after a blank, unless it stands in quotes.
    private static string Bare(string line)
    {
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            if (line[i] == '"')
                quoted = !quoted;
            else if (line[i] == '#' && !quoted && (i == 0 || char.IsWhiteSpace(line[i - 1])))
                return line[..i].TrimEnd();
        }

        return line.TrimEnd();
    }
}

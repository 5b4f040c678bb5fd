using System.Text;

namespace RigControl.Documents.Text;

/// <summary>How things are named in sentences and files.</summary>
internal static class Words
{
    // What a sentence repeats of a file has to leave room for the sentence.
    private const int LongestQuote = 60;

    /// <summary>The kebab-case word that a file writes for an enum value: <c>SpinUp</c> is <c>spin-up</c>.</summary>
    public static string Of<T>(T value)
        where T : struct, Enum => Kebab(value.ToString());

    /// <summary>The word with its article: an article, a rig.</summary>
    public static string OneOf<T>(T value)
        where T : struct, Enum => ("aeiou".Contains(Of(value)[0]) ? "an " : "a ") + Of(value);

    /// <summary>What somebody wrote, on one line and not endless.</summary>
    public static string Quote(string text)
    {
        string line = string.Concat(text.Take(LongestQuote).Select(c => char.IsControl(c) ? ' ' : c));
        return text.Length > LongestQuote ? $"`{line}…`" : $"`{line}`";
    }

    /// <summary><c>a, b or c</c>.</summary>
    public static string Either(IEnumerable<string> words)
    {
        string[] all = [.. words];
        return all.Length < 2 ? string.Concat(all) : $"{string.Join(", ", all[..^1])} or {all[^1]}";
    }

    /// <summary>Advice on an unknown word: the nearest known one, or all there are.</summary>
    public static string Instead(string written, IReadOnlyCollection<string> known)
    {
        string? nearest = Nearest.Of(written, known);
        if (nearest is not null)
            return $"write `{nearest}`";
        return known.Count == 0 ? "leave it out" : $"write {Either(known.Select(k => $"`{k}`"))}";
    }

    private static string Kebab(string name)
    {
        var word = new StringBuilder();
        foreach (char c in name)
        {
            if (char.IsUpper(c) && word.Length > 0)
                word.Append('-');
            word.Append(char.ToLowerInvariant(c));
        }
        return word.ToString();
    }
}

/// <summary>The words that a file writes for the values of an enum.</summary>
internal static class Words<T>
    where T : struct, Enum
{
    private static readonly Dictionary<string, T> ByWord = Enum.GetValues<T>().ToDictionary(Words.Of);

    public static IReadOnlyList<string> All { get; } = [.. Enum.GetValues<T>().Select(Words.Of)];

    public static T? Find(string word) => ByWord.TryGetValue(word, out T value) ? value : null;
}

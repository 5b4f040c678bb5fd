namespace RigControl.Cli.Asking;

/// <summary>Breaks text into lines that fit a terminal.</summary>
internal static class Lines
{
    /// <summary>Columns of the narrowest usual terminal.</summary>
    public const int Width = 80;

    /// <summary>The text in lines of at most <paramref name="width"/> columns, broken between words; a longer word stands alone.</summary>
    public static IEnumerable<string> Wrap(string text, int width)
    {
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                yield return line;
                line = "";
            }

            line = line.Length == 0 ? word : $"{line} {word}";
        }

        if (line.Length > 0)
            yield return line;
    }
}

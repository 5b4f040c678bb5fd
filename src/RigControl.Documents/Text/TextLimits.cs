using System.Text;

namespace RigControl.Documents.Text;

/// <summary>Bounds on a file, so that no text can cost more than a moment, and the characters it may hold.</summary>
internal static class TextLimits
{
    /// <summary>Largest file, in bytes of UTF-8: a hundred times what a long procedure takes.</summary>
    public const int Bytes = 1 << 20;

    /// <summary>Deepest nesting of lists and groups: a file of ours needs five, and the reader's stack is safe.</summary>
    public const int Depth = 16;

    /// <summary>Most values, lists and groups together: aliases that multiply come to an end.</summary>
    public const int Nodes = 10_000;

    /// <summary>Throws <see cref="UnreadableException"/> for a text that is not worth parsing.</summary>
    public static void Demand(string text)
    {
        if (text.Length > Bytes || Encoding.UTF8.GetByteCount(text) > Bytes)
            throw new UnreadableException(Place.Start, "the file is larger than 1 MiB", "split it or remove what does not belong into it");
        DemandPrintable(text);
    }

    private static void DemandPrintable(string text)
    {
        int line = 1, start = 0;
        for (int i = 0; i < text.Length; i++)
        {
            if (IsLineEnd(text, i))
                (line, start) = (line + 1, i + 1);
            else if (!MayStand(text, i))
                throw new UnreadableException(
                    new(line, i - start + 1), $"the character U+{(int)text[i]:X4} does not belong into a text file", "remove it, and save the file as UTF-8");
        }
    }

    private static bool IsLineEnd(string text, int i) =>
        text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n'));

    // Control characters and Unicode's own line separators would make our line numbers differ from an editor's.
    private static bool MayStand(string text, int i) => text[i] switch
    {
        '\t' or '\n' or '\r' => true,
        '\uFEFF' or '\u2028' or '\u2029' or '\uFFFE' or '\uFFFF' => false,
        var c when char.IsHighSurrogate(c) => i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]),
        var c when char.IsLowSurrogate(c) => i > 0 && char.IsHighSurrogate(text[i - 1]),
        var c => !char.IsControl(c),
    };
}

/// <summary>Ends the parsing of a text at a place; becomes its one problem.</summary>
internal sealed class UnreadableException(Place place, string what, string remedy) : Exception(what)
{
    public Place Place { get; } = place;

    public string Remedy { get; } = remedy;
}

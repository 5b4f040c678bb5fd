using Microsoft.CodeAnalysis.Text;

namespace RigControl.Mutants.Changing;

/// <summary>One small change of one file.</summary>
/// <param name="File">From the root of the checkout.</param>
/// <param name="Span">What is replaced.</param>
/// <param name="Before">The text there.</param>
/// <param name="After">What stands there instead.</param>
/// <param name="Kind">What sort of mistake it is.</param>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Source">That line, without the space around it.</param>
public sealed record Mutation(string File, TextSpan Span, string Before, string After, string Kind, int Line, string Source)
{
    /// <summary>The file's text with the change.</summary>
    public string Apply(string text) => string.Concat(text.AsSpan(0, Span.Start), After, text.AsSpan(Span.End));

    /// <summary>The same in one line.</summary>
    public override string ToString() => $"{File}:{Line} {Kind}: {OneLine(Before)} -> {OneLine(After)}";

    /// <summary>Any text in one line.</summary>
    public static string OneLine(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}

using Spectre.Console;

namespace RigControl.Cli.Terminal;

/// <summary>One row of the screen.</summary>
/// <param name="Text">Without line ends.</param>
/// <param name="Style">Null for the terminal's own.</param>
/// <param name="Beside">What follows in the terminal's own style.</param>
internal readonly record struct Line(string Text, Style? Style = null, string Beside = "")
{
    public static readonly Style Bold = new(decoration: Decoration.Bold);

    public static readonly Style Bad = new(Color.Red, decoration: Decoration.Bold);

    /// <summary>The text in as many columns as there are, the end shown as left out.</summary>
    public static string Fit(string text, int width) => text.Length <= width ? text : width < 1 ? "" : text[..(width - 1)] + "…";
}

using ScottPlot;

namespace RigControl.Reports.Plots;

/// <summary>
/// A machine without fonts draws all text blank and says nothing. So the font is chosen before anything is drawn, and a
/// machine that has none is told so.
/// </summary>
internal static class PlotFont
{
    private static readonly string[] Wanted = ["DejaVu Sans", "Liberation Sans", "Noto Sans", "Arial", "Helvetica", "Segoe UI"];

    /// <exception cref="PlotException">There is no font at all.</exception>
    public static string Choose()
    {
        string[] installed = [.. SkiaSharp.SKFontManager.Default.FontFamilies];
        string font = Wanted.FirstOrDefault(installed.Contains) ?? installed.FirstOrDefault()
            ?? throw new PlotException("this machine has no font, so a picture would have no words: install one, such as the package fonts-dejavu-core");
        Fonts.Default = font;
        return font;
    }
}

/// <summary>Nothing can be drawn. The message is a sentence to act on.</summary>
public sealed class PlotException(string message) : Exception(message);

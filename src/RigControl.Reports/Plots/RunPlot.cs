using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using ScottPlot;

namespace RigControl.Reports.Plots;

/// <summary>Draws panels one below the other over one time axis. Lines differ by pattern as well as by shade, for black and white.</summary>
public static partial class RunPlot
{
    private const int PanelHeight = 230;
    private const int NamesHeight = 24;
    private const int LabelHeight = 12;
    private const int LabelLines = 4;

    // Pixels, on the safe side.
    private const double LetterWidth = 7;
    private const int Margin = 78;

    private static readonly LinePattern[] Patterns = [LinePattern.Solid, LinePattern.Dashed, LinePattern.Dotted, LinePattern.DenselyDashed];
    private static readonly Color[] Shades = [Color.FromHex("#10405c"), Color.FromHex("#a3400f"), Color.FromHex("#3a7d44"), Color.FromHex("#6b3f87")];

    /// <summary>A picture as PNG, with a headline.</summary>
    /// <param name="width">Pixels.</param>
    /// <exception cref="PlotException">There is nothing to draw, or no font.</exception>
    public static byte[] Png(IReadOnlyList<Panel> panels, IReadOnlyList<Moment> moments, string title, int width = 1200)
    {
        Check(panels);
        using SkiaSharp.SKBitmap all = new(width, panels.Count * PanelHeight);
        using SkiaSharp.SKCanvas canvas = new(all);
        for (int i = 0; i < panels.Count; i++)
        {
            using Plot plot = Draw(panels[i], moments, panels, i == 0 ? title : null, i == panels.Count - 1, width);
            using SkiaSharp.SKBitmap one = SkiaSharp.SKBitmap.Decode(plot.GetImageBytes(width, PanelHeight, ImageFormat.Png));
            canvas.DrawBitmap(one, 0, i * PanelHeight);
        }

        using SkiaSharp.SKData data = all.Encode(SkiaSharp.SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    /// <summary>The same as SVG, one document that scales.</summary>
    /// <param name="prefix">Begins every identifier, so that several may stand in one page.</param>
    /// <exception cref="PlotException">There is nothing to draw, or no font.</exception>
    public static string Svg(IReadOnlyList<Panel> panels, IReadOnlyList<Moment> moments, string? title, string prefix, int width = 960)
    {
        Check(panels);
        StringBuilder svg = new();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {panels.Count * PanelHeight}\" role=\"img\" aria-label=\"{Escaped(title ?? "channels over time")}\">");
        for (int i = 0; i < panels.Count; i++)
        {
            using Plot plot = Draw(panels[i], moments, panels, i == 0 ? title : null, i == panels.Count - 1, width);
            string drawn = plot.GetSvgXml(width, PanelHeight);
            svg.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate(0,{i * PanelHeight})\">{Inner(drawn, $"{prefix}{i}-")}</g>");
        }

        return svg.Append("</svg>").ToString();
    }

    /// <summary>A drawing of each panel over the same time, so that a page may end between them.</summary>
    /// <exception cref="PlotException">There is nothing to draw, or no font.</exception>
    public static IReadOnlyList<string> SvgEach(IReadOnlyList<Panel> panels, IReadOnlyList<Moment> moments, string prefix, int width = 960)
    {
        Check(panels);
        return [.. panels.Select((panel, i) =>
        {
            using Plot plot = Draw(panel, moments, panels, null, i == panels.Count - 1, width);
            string names = Escaped(string.Join(", ", panel.Lines.Select(l => l.Name)));
            return string.Create(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {PanelHeight}\" role=\"img\" aria-label=\"{names} over time\">{Inner(plot.GetSvgXml(width, PanelHeight), $"{prefix}{i}-")}</svg>");
        })];
    }

    private static void Check(IReadOnlyList<Panel> panels)
    {
        if (panels.Count == 0)
            throw new PlotException("none of the channels has a sample to draw");
        PlotFont.Choose();
    }

    private static Plot Draw(Panel panel, IReadOnlyList<Moment> moments, IReadOnlyList<Panel> all, string? title, bool last, int width)
    {
        Plot plot = new();
        for (int i = 0; i < panel.Lines.Count; i++)
        {
            (double[] times, double[] values) = Envelope.Of(panel.Lines[i].Series, width);
            ScottPlot.Plottables.Scatter drawn = plot.Add.ScatterLine(times, values, Shades[i]);
            drawn.LinePattern = Patterns[i];
            drawn.LineWidth = 1.5f;
            drawn.LegendText = panel.Lines[i].Name;
        }

        (double low, double high) = Limits(panel);
        plot.Axes.SetLimitsY(low, high);
        double from = all.Min(p => p.Lines.Min(l => l.Series.Times[0])), to = all.Max(p => p.Lines.Max(l => l.Series.Times[^1]));
        plot.Axes.SetLimitsX(from, to > from ? to : from + 1);
        MarkAll(plot, moments, high, labelled: ReferenceEquals(panel, all[0]), LetterWidth / width * (to - from));
        plot.YLabel(panel.Unit);
        if (last)
            plot.XLabel("time [s]");
        if (title is not null)
            plot.Title(title);
        NameLines(plot);
        // As many numbers as can be read on a narrow screen too.
        plot.Axes.Bottom.TickGenerator = new ScottPlot.TickGenerators.NumericAutomatic { TickDensity = 0.6 };
        plot.Axes.Left.MinimumSize = Margin;
        plot.Axes.Left.MaximumSize = Margin;
        return plot;
    }

    // Above the data, which a legend within would hide, and at the left, where a narrow screen begins.
    private static void NameLines(Plot plot)
    {
        ScottPlot.Panels.LegendPanel names = plot.ShowLegend(Edge.Top);
        names.Alignment = Alignment.UpperLeft;
        names.MinimumSize = NamesHeight;
        names.MaximumSize = NamesHeight;
        names.Legend.Orientation = Orientation.Horizontal;
        names.Legend.OutlineWidth = 0;
        names.Legend.ShadowColor = Colors.Transparent;
    }

    // A line that lies flat gets room around it all the same.
    private static (double Low, double High) Limits(Panel panel)
    {
        double low = panel.Lines.Min(l => l.Series.Values.Min()), high = panel.Lines.Max(l => l.Series.Values.Max());
        double room = high > low ? 0.08 * (high - low) : Math.Max(1e-9, 0.05 * Math.Abs(high));
        return (low - room, high + room);
    }

    // Words that would run into those before them go a line lower.
    private static void MarkAll(Plot plot, IReadOnlyList<Moment> moments, double top, bool labelled, double letter)
    {
        (double taken, int below) = (double.NegativeInfinity, 0);
        foreach (Moment moment in moments.OrderBy(m => m.At))
        {
            bool words = labelled && moment.Text.Length > 0;
            if (words)
                (below, taken) = (moment.At < taken ? (below + 1) % LabelLines : 0, moment.At + moment.Text.Length * letter);
            Mark(plot, moment, top, words, below);
        }
    }

    private static void Mark(Plot plot, Moment moment, double top, bool labelled, int below)
    {
        ScottPlot.Plottables.VerticalLine line = plot.Add.VerticalLine(moment.At, 1, moment.Bad ? Color.FromHex("#b00020") : Color.FromHex("#888888"));
        line.LinePattern = moment.Bad ? LinePattern.Solid : LinePattern.Dotted;
        if (!labelled)
            return;
        ScottPlot.Plottables.Text text = plot.Add.Text(moment.Text, moment.At, top);
        text.LabelFontSize = 10;
        text.LabelFontColor = moment.Bad ? Color.FromHex("#b00020") : Color.FromHex("#444444");
        text.LabelAlignment = Alignment.UpperLeft;
        text.OffsetX = 4;
        text.OffsetY = 4 + below * LabelHeight;
    }

    // What stands inside of the root element, every identifier made unlike those of other pictures.
    internal static string Inner(string svg, string prefix)
    {
        int start = svg.IndexOf('>', svg.IndexOf("<svg", StringComparison.Ordinal)) + 1;
        string inner = svg[start..svg.LastIndexOf("</svg>", StringComparison.Ordinal)];
        inner = Identifier().Replace(inner, m => $"id=\"{prefix}{m.Groups[1].Value}\"");
        return Reference().Replace(inner, m => $"{m.Groups[1].Value}#{prefix}");
    }

    private static string Escaped(string text) => System.Net.WebUtility.HtmlEncode(text);

    [GeneratedRegex("\\bid=\"([^\"]+)\"")]
    private static partial Regex Identifier();

    [GeneratedRegex("(url\\(|href=\")#")]
    private static partial Regex Reference();
}

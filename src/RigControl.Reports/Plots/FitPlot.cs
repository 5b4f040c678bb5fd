using System.Globalization;
using System.Text;
using RigControl.Analysis.Pictures;
using ScottPlot;

namespace RigControl.Reports.Plots;

/// <summary>Draws a fit: above, the data, the curve and how well it is known; below, what is left over. Shades that differ in grey too.</summary>
public static class FitPlot
{
    private const int Above = 320;
    private const int Below = 150;
    private const int Margin = 78;

    // More dots than a picture of this width has columns lie on one another.
    private const int MostPoints = 2000;

    private static readonly Color Ink = Color.FromHex("#10405c");
    private static readonly Color Data = Color.FromHex("#8a8a8a");

    /// <summary>A picture as PNG.</summary>
    /// <param name="width">Pixels.</param>
    /// <exception cref="PlotException">There is no font.</exception>
    public static byte[] Png(FitPicture picture, int width = 900)
    {
        PlotFont.Choose();
        using Plot above = Fitted(picture), below = Left(picture);
        using SkiaSharp.SKBitmap all = new(width, Above + Below);
        using SkiaSharp.SKCanvas canvas = new(all);
        using SkiaSharp.SKBitmap upper = SkiaSharp.SKBitmap.Decode(above.GetImageBytes(width, Above, ImageFormat.Png));
        using SkiaSharp.SKBitmap lower = SkiaSharp.SKBitmap.Decode(below.GetImageBytes(width, Below, ImageFormat.Png));
        canvas.DrawBitmap(upper, 0, 0);
        canvas.DrawBitmap(lower, 0, Above);
        using SkiaSharp.SKData data = all.Encode(SkiaSharp.SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    /// <summary>The same as SVG, one document that scales.</summary>
    /// <param name="prefix">Begins every identifier, so that several may stand in one page.</param>
    /// <exception cref="PlotException">There is no font.</exception>
    public static string Svg(FitPicture picture, string prefix, int width = 900)
    {
        PlotFont.Choose();
        using Plot above = Fitted(picture), below = Left(picture);
        StringBuilder svg = new();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {Above + Below}\" role=\"img\" aria-label=\"{System.Net.WebUtility.HtmlEncode(picture.Title)}\">");
        svg.Append(CultureInfo.InvariantCulture, $"<g>{RunPlot.Inner(above.GetSvgXml(width, Above), $"{prefix}a-")}</g>");
        svg.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate(0,{Above})\">{RunPlot.Inner(below.GetSvgXml(width, Below), $"{prefix}b-")}</g>");
        return svg.Append("</svg>").ToString();
    }

    private static Plot Fitted(FitPicture picture)
    {
        Plot plot = New(picture, picture.Up);
        (double[] x, double[] y) = Thinned(picture.X, picture.Y);
        Points(plot, x, y, "measured");
        double[] places = [.. picture.Curve.Select(c => c.X)];
        ScottPlot.Plottables.FillY band = plot.Add.FillY(places, [.. picture.Curve.Select(c => c.Low)], [.. picture.Curve.Select(c => c.High)]);
        band.FillColor = Ink.WithAlpha(0.25);
        band.LineWidth = 0;
        band.LegendText = "95 % band of the fit";
        ScottPlot.Plottables.Scatter line = plot.Add.ScatterLine(places, [.. picture.Curve.Select(c => c.Y)], Ink);
        line.LineWidth = 2;
        line.LegendText = "fit";
        plot.Title(picture.Title);
        plot.ShowLegend(EmptyCorner(picture.Curve));
        return plot;
    }

    // Where the curve is not: under a rise, above a fall, under a fall that begins late.
    private static Alignment EmptyCorner(IReadOnlyList<CurvePoint> curve)
    {
        double first = curve[0].Y, last = curve[^1].Y, middle = curve[curve.Count / 2].Y;
        return last > first ? Alignment.LowerRight : middle > (first + last) / 2 ? Alignment.LowerLeft : Alignment.UpperRight;
    }

    private static Plot Left(FitPicture picture)
    {
        Plot plot = New(picture, "left over");
        (double[] x, double[] y) = Thinned(picture.X, picture.Residuals);
        plot.Add.HorizontalLine(0, 1, Ink);
        Points(plot, x, y, null);
        plot.XLabel(picture.Across);
        return plot;
    }

    private static Plot New(FitPicture picture, string up)
    {
        Plot plot = new();
        double from = Math.Min(picture.X.Min(), picture.Curve[0].X), to = Math.Max(picture.X.Max(), picture.Curve[^1].X);
        double room = 0.02 * Math.Max(to - from, 1e-9);
        plot.Axes.SetLimitsX(from - room, to + room);
        plot.YLabel(up);
        plot.Axes.Left.MinimumSize = Margin;
        plot.Axes.Left.MaximumSize = Margin;
        return plot;
    }

    private static void Points(Plot plot, double[] x, double[] y, string? legend)
    {
        ScottPlot.Plottables.Scatter points = plot.Add.ScatterPoints(x, y, Data);
        points.MarkerSize = 3;
        if (legend is not null)
            points.LegendText = legend;
    }

    private static (double[] X, double[] Y) Thinned(double[] x, double[] y)
    {
        int stride = Math.Max(1, x.Length / MostPoints);
        return ([.. x.Where((_, i) => i % stride == 0)], [.. y.Where((_, i) => i % stride == 0)]);
    }
}

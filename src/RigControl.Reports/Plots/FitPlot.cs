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
    private const int LabelSize = 13;

    // A band of points wider than the line through it, so that data that scatter little are seen all the same.
    private const int WidePoints = 5;
    private const int Points = 3;

    // Points that a person took one by one are seen one by one.
    private const int Few = 30;
    private const int FewPoints = 9;

    // What a legend takes of the picture, on the safe side.
    private const double LegendWidth = 0.25;
    private const double LegendHeight = 0.35;

    // More points than a picture this wide can show apart.
    private const int MostPoints = 2000;

    private static readonly Color Ink = Color.FromHex("#10405c");
    private static readonly Color Data = Color.FromHex("#9a9a9a");

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
        Scattered(plot, x, y, WidePoints).LegendText = "measured";
        double[] places = [.. picture.Curve.Select(c => c.X)];
        ScottPlot.Plottables.FillY band = plot.Add.FillY(places, [.. picture.Curve.Select(c => c.Low)], [.. picture.Curve.Select(c => c.High)]);
        band.FillColor = Ink.WithAlpha(0.25);
        band.LineWidth = 0;
        // A band that nobody knows is not promised in the legend.
        if (picture.Curve.Any(c => c.High > c.Low))
            band.LegendText = "95 % band";
        ScottPlot.Plottables.Scatter line = plot.Add.ScatterLine(places, [.. picture.Curve.Select(c => c.Y)], Ink);
        line.LineWidth = 1.5f;
        line.LegendText = picture.Line;
        plot.Title(picture.Title);
        plot.ShowLegend(EmptiestCorner(x, y, picture.Curve));
        return plot;
    }

    // Where a legend hides the least of data and curve.
    private static Alignment EmptiestCorner(double[] x, double[] y, IReadOnlyList<CurvePoint> curve)
    {
        (double X, double Y)[] all = [.. x.Zip(y), .. curve.Select(c => (c.X, c.Y))];
        (double left, double right, double low, double high) = (all.Min(p => p.X), all.Max(p => p.X), all.Min(p => p.Y), all.Max(p => p.Y));
        int Hidden(Alignment corner) => all.Count(p =>
            (corner is Alignment.LowerLeft or Alignment.UpperLeft ? p.X - left : right - p.X) < LegendWidth * (right - left)
            && (corner is Alignment.LowerLeft or Alignment.LowerRight ? p.Y - low : high - p.Y) < LegendHeight * (high - low));
        return ((Alignment[])[Alignment.LowerRight, Alignment.UpperRight, Alignment.LowerLeft, Alignment.UpperLeft]).MinBy(Hidden);
    }

    private static Plot Left(FitPicture picture)
    {
        Plot plot = New(picture, "left over" + UnitOf(picture.Up));
        // Few numbers fit, but one alone is no scale.
        plot.Axes.Left.TickGenerator = new ScottPlot.TickGenerators.NumericAutomatic { TickDensity = 1.8 };
        (double[] x, double[] y) = Thinned(picture.X, picture.Residuals);
        plot.Add.HorizontalLine(0, 1, Ink);
        Scattered(plot, x, y, Points);
        plot.XLabel(picture.Across, LabelSize);
        return plot;
    }

    // With its brackets, from a quantity and its unit.
    private static string UnitOf(string quantity) => quantity.IndexOf('[') is var at and >= 0 ? " " + quantity[at..] : "";

    private static Plot New(FitPicture picture, string up)
    {
        Plot plot = new();
        double from = Math.Min(picture.X.Min(), picture.Curve[0].X), to = Math.Max(picture.X.Max(), picture.Curve[^1].X);
        double room = 0.02 * Math.Max(to - from, 1e-9);
        plot.Axes.SetLimitsX(from - room, to + room);
        plot.YLabel(up, LabelSize);
        plot.Axes.Left.MinimumSize = Margin;
        plot.Axes.Left.MaximumSize = Margin;
        return plot;
    }

    private static ScottPlot.Plottables.Scatter Scattered(Plot plot, double[] x, double[] y, int size)
    {
        ScottPlot.Plottables.Scatter points = plot.Add.ScatterPoints(x, y, Data);
        points.MarkerSize = x.Length <= Few ? FewPoints : size;
        return points;
    }

    private static (double[] X, double[] Y) Thinned(double[] x, double[] y)
    {
        int stride = Math.Max(1, x.Length / MostPoints);
        return ([.. x.Where((_, i) => i % stride == 0)], [.. y.Where((_, i) => i % stride == 0)]);
    }
}

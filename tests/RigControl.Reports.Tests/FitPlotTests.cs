using System.Xml.Linq;
using RigControl.Analysis.Pictures;
using RigControl.Reports.Plots;

namespace RigControl.Reports.Tests;

/// <summary>A fit as a picture: readable on paper, in any program, and never blank.</summary>
public class FitPlotTests
{
    private static FitPicture Picture(Func<double, double> curve)
    {
        double[] x = [.. Enumerable.Range(0, 5000).Select(i => i * 0.01)];
        double[] y = [.. x.Select(v => curve(v) + Math.Sin(v * 997))];
        return new FitPicture("fit", "A fit", "time [s]", "speed [rpm]", x, y, [.. x.Where((_, i) => i % 100 == 0).Select(v => new CurvePoint(v, curve(v), curve(v) - 1, curve(v) + 1))], [.. x.Select(v => Math.Sin(v * 997))]);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void A_fit_is_drawn_as_a_png_that_is_not_blank(int slope)
    {
        using SkiaSharp.SKBitmap drawn = SkiaSharp.SKBitmap.Decode(FitPlot.Png(Picture(x => slope * x * x), 700));
        Assert.Equal(700, drawn.Width);
        Assert.True(drawn.Pixels.Distinct().Count() > 20);
        // The upper picture and the lower one both hold ink.
        Assert.Contains(drawn.Pixels.Take(700 * 300), p => p.Red < 100);
        Assert.Contains(drawn.Pixels.Skip(700 * 340), p => p.Red < 100);
    }

    [Fact]
    public void A_fit_is_drawn_as_svg_that_scales_and_names_its_axes()
    {
        XElement svg = XElement.Parse(FitPlot.Svg(Picture(x => x), "p"));
        Assert.NotNull(svg.Attribute("viewBox"));
        Assert.Equal("A fit", svg.Attribute("aria-label")!.Value);
        string[] ids = [.. svg.DescendantsAndSelf().Attributes("id").Select(a => a.Value)];
        Assert.Equal(ids.Distinct().Count(), ids.Length);
    }
}

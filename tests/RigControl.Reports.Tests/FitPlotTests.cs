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
    public void Few_points_are_large_enough_to_be_counted_and_a_band_that_nobody_knows_is_not_in_the_legend()
    {
        double[] x = [0, 10, 20, 30];
        FitPicture few = new("calibration", "A calibration", "reading [A]", "to be added [A]", x, [0.1, 0.6, 1.0, 1.6], [.. x.Select(v => new CurvePoint(v, 0.1 + 0.05 * v, 0.05 * v, 0.2 + 0.05 * v))], [0, 0, -0.1, 0]);
        using SkiaSharp.SKBitmap drawn = SkiaSharp.SKBitmap.Decode(FitPlot.Png(few, 700));
        // The grey of four points below, each a disc of some 60 pixels.
        Assert.True(Enumerable.Range(0, 700 * 150).Count(i => drawn.GetPixel(i % 700, 320 + i / 700) == new SkiaSharp.SKColor(0x9a, 0x9a, 0x9a)) > 4 * 30);
        Assert.Contains("95 % band", FitPlot.Svg(few, "p"), StringComparison.Ordinal);
        Assert.DoesNotContain("95 % band", FitPlot.Svg(few with { Curve = [.. few.Curve.Select(c => c with { Low = c.Y, High = c.Y })] }, "p"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("rise")]
    [InlineData("fall")]
    [InlineData("heated, then cooling")]
    public void No_legend_hides_where_the_data_end(string shape)
    {
        using SkiaSharp.SKBitmap drawn = SkiaSharp.SKBitmap.Decode(FitPlot.Png(Picture(x => shape switch { "rise" => 20 * x, "fall" => -20 * x, _ => x < 15 ? 60 * x : 900 * Math.Exp(-(x - 15) / 20) }), 700));
        // The grey of the data, within the last columns, which a legend at that side would cover.
        Assert.Contains(Enumerable.Range(0, 20 * 320), i => drawn.GetPixel(650 + i % 20, i / 20) == new SkiaSharp.SKColor(0x9a, 0x9a, 0x9a));
    }

    [Fact]
    public void What_is_left_over_carries_its_unit() => Assert.Contains("left over [rpm]", FitPlot.Svg(Picture(x => x), "p"), StringComparison.Ordinal);

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

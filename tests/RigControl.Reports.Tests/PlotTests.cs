using System.Xml.Linq;
using RigControl.Analysis.Traces;
using RigControl.Reports.Plots;

namespace RigControl.Reports.Tests;

/// <summary>A picture shows every peak and can be read by any program.</summary>
public class PlotTests
{
    [Fact]
    public void A_spike_of_one_sample_among_a_million_is_still_in_the_picture()
    {
        double[] times = [.. Enumerable.Range(0, 1_000_000).Select(i => i * 1e-3)];
        double[] values = [.. times.Select(_ => 1.0)];
        (values[123_456], values[765_432]) = (99, -99);
        (double[] shownTimes, double[] shown) = Envelope.Of(new Series("A", 0, times, values), 800);
        Assert.InRange(shown.Length, 800, 4 * 801);
        Assert.Equal((99, -99), (shown.Max(), shown.Min()));
        Assert.Equal(123.456, shownTimes[Array.IndexOf(shown, 99)], 1e-9);
        Assert.Equal(shownTimes.Order(), shownTimes);
        Assert.Equal((times[0], times[^1]), (shownTimes[0], shownTimes[^1]));
    }

    [Fact]
    public void Few_samples_are_drawn_as_they_are()
    {
        Series series = new("A", 0, [0, 1, 2], [5, 6, 7]);
        Assert.Equal(series.Values, Envelope.Of(series, 800).Values);
    }

    [Fact]
    public void Channels_are_sorted_by_unit_and_no_panel_has_more_lines_than_can_be_told_apart()
    {
        Series In(string unit) => new(unit, 0, [0, 1], [1, 2]);
        IReadOnlyList<Panel> panels = Panel.Of([("a", In("V")), ("b", In("A")), ("c", In("V")), ("d", In("degC")), ("e", In("degC")), ("f", In("degC")), ("g", In("degC")), ("h", In("degC")), ("empty", new Series("W", 0, [], []))]);
        Assert.Equal(["V", "A", "degC", "degC"], panels.Select(p => p.Unit));
        Assert.Equal([2, 1, 4, 1], panels.Select(p => p.Lines.Count));
    }

    [Fact]
    public void A_picture_is_a_png_of_the_width_asked_for_and_not_blank()
    {
        byte[] png = RunPlot.Png(Panels(), [new Moment(1, "lid", true)], "spin-up of disc-180", 700);
        using SkiaSharp.SKBitmap picture = SkiaSharp.SKBitmap.Decode(png);
        Assert.Equal(700, picture.Width);
        Assert.True(picture.Pixels.Distinct().Count() > 20);
    }

    [Fact]
    public void A_drawing_is_well_formed_scales_and_shares_no_identifier_with_another()
    {
        XDocument first = XDocument.Parse(RunPlot.Svg(Panels(), [], "a < b & c", "x")), second = XDocument.Parse(RunPlot.Svg(Panels(), [], null, "y"));
        Assert.NotNull(first.Root!.Attribute("viewBox"));
        Assert.Equal("a < b & c", (string?)first.Root.Attribute("aria-label"));
        HashSet<string> ids = [.. Ids(first)];
        Assert.Equal(ids.Count, Ids(first).Count());
        Assert.DoesNotContain(Ids(second), ids.Contains);
        string text = first.ToString();
        foreach (System.Text.RegularExpressions.Match reference in System.Text.RegularExpressions.Regex.Matches(text, "url\\(#([^)]+)\\)"))
            Assert.Contains(reference.Groups[1].Value, ids);
    }

    [Fact]
    public void A_level_that_never_changes_and_a_single_sample_can_be_drawn() =>
        Assert.NotEmpty(RunPlot.Svg(Panel.Of([("flat", new Series("V", 0, [0, 1], [5, 5])), ("one", new Series("A", 0, [3], [0]))]), [], null, "p"));

    [Fact]
    public void Nothing_to_draw_is_a_sentence() =>
        Assert.Contains("none of the channels", Assert.Throws<PlotException>(() => RunPlot.Png([], [], "")).Message, StringComparison.Ordinal);

    private static IEnumerable<string> Ids(XDocument svg) => svg.Descendants().Select(e => (string?)e.Attribute("id")).OfType<string>();

    private static IReadOnlyList<Panel> Panels() => Panel.Of(
    [
        ("rotor.speed", new Series("rpm", 1, [0, 1, 2, 3], [0, 4000, 9000, 8000])),
        ("battery.current", new Series("A", 0.1, [0, 1, 2, 3], [0, 5, 2, 0])),
        ("other.current", new Series("A", 0.1, [0, 1, 2, 3], [1, 4, 3, 1])),
    ]);
}

using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using RigControl.Reports.Pages;

namespace RigControl.Reports.Tests;

/// <summary>The reports opened in a real browser: on a phone, on a wide screen, in light and dark, and printed.</summary>
public partial class BrowserTests
{
    // Everything that is text on its own and reaches beyond the frame without standing in something that can be moved sideways.
    private const string Cut = """
        [...document.querySelectorAll('h1,h2,h3,p,li,summary,th,td')].filter(e => !e.closest('.wide') && e.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map(e => e.textContent).join(' | ')
        """;

    private const string TooWide = "document.documentElement.scrollWidth - document.documentElement.clientWidth";

    // Of ink and of each kind of text against the paper, the least: relative luminance and ratio as in WCAG 2.1 (from memory).
    private const string LeastContrast = """
        (() => {
          const light = c => { const [r, g, b] = c.match(/\d+/g).map(v => v / 255).map(v => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
          const paper = light(getComputedStyle(document.body).backgroundColor);
          return Math.min(...[...document.querySelectorAll('h1,h2,p,li,th,td,summary')].map(e => light(getComputedStyle(e).color)).map(l => (Math.max(l, paper) + 0.05) / (Math.min(l, paper) + 0.05)));
        })()
        """;

    public static TheoryData<string> Kinds => ["run", "comparison", "verification"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void No_page_is_wider_than_a_phone_and_nothing_is_cut_off(string kind)
    {
        using Browser browser = new();
        foreach (int width in new[] { 360, 500, 1400 })
        {
            Assert.Equal("0", browser.Ask(Page(kind), width, TooWide));
            Assert.Equal("", browser.Ask(Page(kind), width, Cut));
        }
    }

    [Fact]
    public void A_page_that_is_too_wide_or_too_faint_is_seen_to_be_so()
    {
        using Browser browser = new();
        const string page = "<!doctype html><html><body style=\"background:#ffffff\"><p style=\"width:900px;color:#dddddd\">wide and faint</p></body></html>";
        Assert.NotEqual("0", browser.Ask(page, 360, TooWide));
        Assert.Equal("wide and faint", browser.Ask(page, 360, Cut));
        Assert.True(Number(browser.Ask(page, 360, LeastContrast)) < 2);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_verdict_is_seen_before_anything_is_moved(string kind)
    {
        using Browser browser = new();
        Assert.True(Number(browser.Ask(Page(kind), 360, "document.querySelector('.verdict').getBoundingClientRect().bottom")) < 640);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_drawing_is_drawn_within_its_frame(string kind)
    {
        using Browser browser = new();
        string sizes = browser.Ask(Page(kind), 1400, "[...document.querySelectorAll('figure svg')].map(s => s.getBoundingClientRect()).map(b => Math.round(b.width) + 'x' + Math.round(b.height)).join(' ')");
        Assert.All(sizes.Split(' '), s => Assert.Matches("^[3-9][0-9]{2}x[1-9][0-9]{1,2}$", s));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Text_stands_out_in_light_and_in_dark(bool dark)
    {
        using Browser browser = new();
        string paper = browser.Ask(Page("run"), 800, "getComputedStyle(document.body).backgroundColor", dark);
        Assert.Equal(dark ? "rgb(20, 24, 28)" : "rgb(255, 255, 255)", paper);
        foreach (string kind in Kinds.Select(k => k.Data))
            Assert.True(Number(browser.Ask(Page(kind), 800, LeastContrast, dark)) >= 4.5);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_page_prints_on_a_few_sheets(string kind)
    {
        using Browser browser = new();
        string pdf = Encoding.Latin1.GetString(browser.Print(Page(kind)));
        Assert.StartsWith("%PDF", pdf, StringComparison.Ordinal);
        Assert.InRange(Sheet().Count(pdf), 1, 4);
    }

    private static string Page(string kind) => kind switch
    {
        "run" => RunPage.Write(SamplePages.Run()),
        "comparison" => ComparisonPage.Write([SamplePages.Comparison()]),
        _ => RunPage.Write(SamplePages.Verification()),
    };

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)")]
    private static partial Regex Sheet();
}

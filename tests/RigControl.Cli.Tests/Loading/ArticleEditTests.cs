using CsCheck;
using RigControl.Cli.Loading;
using RigControl.Documents;

namespace RigControl.Cli.Tests.Loading;

/// <summary>One value of the article's file is changed; every other character stays.</summary>
public class ArticleEditTests
{
    private static readonly string Disc = File.ReadAllText(Installed.Sample("disc-180.article.yaml"));

    [Fact]
    public void The_value_is_changed_and_the_comment_stays_in_its_column()
    {
        string changed = ArticleEdit.Set(Disc, "controller", "maximum", "1850.5 us", out _)!;
        Assert.Contains("  maximum: 1850.5 us         # full throttle\n", changed, StringComparison.Ordinal);
        Assert.Equal(Disc, ArticleEdit.Set(changed, "controller", "maximum", "2000 us", out _));
    }

    [Theory]
    [InlineData("arming-time", "3.5 s")]
    [InlineData("brakes-at-stop", "yes")]
    [InlineData("maximum", "1900 us")]
    public void What_is_written_is_what_is_read(string key, string value)
    {
        Reading<RigControl.Model.Rig.Article> read = DocumentReader.ReadArticle(ArticleEdit.Set(Disc, "controller", key, value, out _)!, "f");
        Assert.Empty(read.Problems);
        var controller = read.Value!.Controller;
        string now = key switch { "arming-time" => $"{controller.ArmingTime.TotalSeconds} s", "maximum" => $"{controller.MaximumPulse} us", _ => controller.BrakesAtStop ? "yes" : "no" };
        Assert.Equal(value, now);
    }

    [Fact]
    public void A_key_of_the_same_name_elsewhere_is_left_alone()
    {
        const string second = "second-controller:\n  maximum: 1000 us\ncontroller:\n  # maximum: 7 us\n  maximum: 2000 us\nrotor:\n  maximum: 3 us\n";
        Assert.Equal(second.Replace("maximum: 2000 us", "maximum: 1 us", StringComparison.Ordinal), ArticleEdit.Set(second, "controller", "maximum", "1 us", out _));
    }

    [Theory]
    [InlineData("controller: { maximum: 2000 us }\n", "controller: { maximum: 1 us }\n")]
    [InlineData("controller: { stop: 1000 us, maximum: 2000 us, direction: longer }   # as sold\n", "controller: { stop: 1000 us, maximum: 1 us, direction: longer }   # as sold\n")]
    [InlineData("controller: # { maximum: 9 us }\n  maximum: 2000 us\r\n", "controller: # { maximum: 9 us }\n  maximum: 1 us\r\n")]
    public void A_section_in_braces_is_changed_as_one_over_several_lines(string text, string changed)
    {
        Assert.Equal(changed, ArticleEdit.Set(text, "controller", "maximum", "1 us", out string? was));
        Assert.Equal("2000 us", was);
    }

    [Theory]
    [InlineData("controller: { minimum: 2000 us }\n")]
    [InlineData("controller: { not-maximum: 2000 us }\n")]
    [InlineData("article: a\n")]
    [InlineData("")]
    public void Where_the_section_does_not_state_the_key_nothing_is_changed(string text) => Assert.Null(ArticleEdit.Set(text, "controller", "maximum", "1 us", out _));

    [Fact]
    public void Any_text_is_either_left_or_changed_in_one_line() => Gen.String["\n :maxiu#1s\r"].Select(t => t.Replace("x", "  maximum: ", StringComparison.Ordinal)).Sample(
        tail =>
        {
            string text = "controller:\n" + tail;
            string changed = ArticleEdit.Set(text, "controller", "maximum", "1 us", out _) ?? text;
            Assert.InRange(text.Split('\n').Zip(changed.Split('\n')).Count(p => p.First != p.Second), 0, 1);
        },
        iter: 300, seed: "0N0XIzNsQ0O2");
}

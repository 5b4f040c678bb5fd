using System.Text.RegularExpressions;
using RigControl.Documents.Tests.Support;
using RigControl.Model.Rig;

namespace RigControl.Documents.Tests.Articles;

/// <summary>What an article file declares is what the rig reckons with.</summary>
public class ReadArticleTests
{
    [Fact]
    public void The_controller_is_read_as_declared()
    {
        ControllerProfile controller = Read(Samples.Article).Controller;
        Assert.Equal(ControllerMode.OneWay, controller.Mode);
        Assert.Equal((1000, 1000, 2000), (controller.StopPulse, controller.MinimumPulse, controller.MaximumPulse));
        Assert.Equal(PulseDirection.Longer, controller.Direction);
        Assert.False(controller.BrakesAtStop);
        Assert.Equal(CeasedPulseBehaviour.Stops, controller.WhenPulsesCease);
        Assert.Equal(TimeSpan.FromSeconds(2), controller.ArmingTime);
    }

    [Fact]
    public void The_parts_are_read_in_the_units_of_the_models()
    {
        Article article = Read(Samples.Article);
        Assert.Equal(new Rotor(0.00018225, 0.045, 0.18, 10_000), article.Rotor);
        Assert.Equal(new Motor(1000, 0.08, 1.2, 30), article.Motor);
        Assert.Equal(new Pack(3, "LiPo", 1.3, 0.03), article.Pack);
    }

    [Fact]
    public void The_times_are_read_and_the_fastest_rise_becomes_a_share_per_second()
    {
        Article article = Read(Samples.Article);
        Assert.Equal("disc-180", article.Name);
        Assert.Equal(TimeSpan.FromSeconds(0.5), article.StoppingTime);
        Assert.Equal(TimeSpan.FromSeconds(60), article.LongestCoastDown);
        Assert.Equal(2, article.MaximumRise);
    }

    [Theory]
    [InlineData("rotor:")]
    [InlineData("motor:")]
    [InlineData("pack:")]
    public void A_part_may_be_left_out_as_a_whole(string key)
    {
        string text = string.Join('\n', Samples.Article.Split('\n').Where(line => !line.StartsWith(key, StringComparison.Ordinal)));
        Article article = Read(text);
        Assert.Equal(key switch { "rotor:" => 0, "motor:" => 1, _ => 2 }, Array.FindIndex<object?>([article.Rotor, article.Motor, article.Pack], p => p is null));
    }

    [Theory]
    [InlineData("shorter", "one-way", "2000 us")]
    [InlineData("longer", "two-way", "1500 us")]
    [InlineData("longer", "servo", "1000 us")]
    [InlineData("shorter", "servo", "1700 us")]
    [InlineData("longer", "one-way", "1 ms")]
    public void Every_sort_of_controller_has_its_own_stop(string direction, string mode, string stop)
    {
        ControllerProfile controller = Read(With(direction, mode, stop)).Controller;
        Assert.Equal(controller.StopPulse, controller.PulseFor(0));
    }

    [Theory]
    [InlineData("longer", "one-way", "2000 us")]
    [InlineData("shorter", "one-way", "1000 us")]
    [InlineData("longer", "two-way", "1000 us")]
    [InlineData("longer", "two-way", "2000 us")]
    [InlineData("longer", "servo", "2100 us")]
    public void A_stop_that_would_drive_is_refused(string direction, string mode, string stop) =>
        Assert.Equal(4, Assert.Single(DocumentReader.ReadArticle(With(direction, mode, stop), "f").Problems).Line);

    [Fact]
    public void No_key_of_the_controller_has_a_default()
    {
        string[] lines = Samples.Article.Split('\n');
        for (int i = 2; i <= 9; i++)
        {
            string text = string.Join('\n', lines.Where((_, j) => j != i));
            string key = lines[i].Trim().Split(':')[0];
            Assert.Contains(DocumentReader.ReadArticle(text, "f").Problems, p => p.What == $"the controller has no `{key}`");
        }
    }

    [Fact]
    public void Every_range_is_kept_at_both_ends()
    {
        foreach ((string key, string inside, string outside) in Ends)
        {
            Assert.DoesNotContain(ProblemsWith(key, inside), p => p.What.Contains("out of range"));
            Assert.Contains(ProblemsWith(key, outside), p => p.What == $"`{outside}` is out of range");
        }
    }

    private static IEnumerable<(string Key, string Inside, string Outside)> Ends =>
    [
        ("minimum", "500 us", "499 us"), ("maximum", "2500 us", "2501 us"), ("arming-time", "60 s", "61 s"),
        ("mass", "1 g", "0.9 g"), ("mass", "100 kg", "101 kg"), ("tip-radius", "1 mm", "0.9 mm"), ("tip-radius", "1 m", "1.1 m"),
        ("inertia", "1 g.mm2", "0.9 g.mm2"), ("maximum-speed", "1 rpm", "0 rpm"), ("maximum-speed", "100000 rpm", "100001 rpm"),
        ("kv", "1 rpm/V", "0 rpm/V"), ("kv", "100000 rpm/V", "100001 rpm/V"), ("winding-resistance", "0.1 mOhm", "0.09 mOhm"),
        ("no-load-current", "0 A", "-1 A"), ("current-limit", "1000 A", "1001 A"), ("capacity", "10 mAh", "9 mAh"),
        ("resistance", "100 mOhm", "0 mOhm"), ("stopping-time", "10 s", "10.1 s"), ("longest-coast-down", "3600 s", "3601 s"),
        ("longest-coast-down", "0.1 s", "0 s"), ("fastest-rise", "20 ms", "19 ms"), ("fastest-rise", "60 s", "61 s"),
    ];

    private static IReadOnlyList<Problem> ProblemsWith(string key, string value) =>
        DocumentReader.ReadArticle(Regex.Replace(Samples.Article, $@"(?<![a-z-]){key}: [^,\n}}]*", $"{key}: {value}"), "f").Problems;

    private static string With(string direction, string mode, string stop) => Samples.Article
        .Replace("direction: longer", $"direction: {direction}").Replace("mode: one-way", $"mode: {mode}").Replace("stop: 1000 us", $"stop: {stop}");

    private static Article Read(string text)
    {
        Reading<Article> reading = DocumentReader.ReadArticle(text, "f");
        Assert.Empty(reading.Problems);
        return reading.Value!;
    }
}

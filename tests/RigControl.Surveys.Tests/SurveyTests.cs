namespace RigControl.Surveys.Tests;

/// <summary>A slice of the survey whose whole stands in docs/evidence/coverage.md.</summary>
public class SurveyTests(ITestOutputHelper output)
{
    private const int Runs = 60;

    [Fact]
    public void The_interval_of_every_figure_holds_the_truth_about_as_often_as_it_says()
    {
        IReadOnlyList<Tally> tallies = Survey.Of(first: 1, Runs);
        foreach (string line in CoveragePage.Table(tallies))
            output.WriteLine(line);
        Assert.True(tallies.Count >= 25, $"only {tallies.Count} figures were looked at");
        foreach (Tally t in tallies)
        {
            Assert.True(t.Values >= Runs / 2, $"{t.Name}: only {t.Values} of {Runs} runs gave a value");
            // Of sixty intervals that hold in 88 of 100, fewer than 45 hold once in a thousand times.
            Assert.True(t.Held >= 0.75 * t.Values, $"{t.Name}: {t.Held} of {t.Values} intervals hold the truth");
            Assert.True(Math.Abs(t.Bias) < 0.25, $"{t.Name}: off by {t.Bias:0.00} of its interval on average");
        }
    }

    [Fact]
    public void The_same_seeds_give_the_same_tallies()
    {
        string[] once = [.. CoveragePage.Table(Survey.Of(11, 3))], again = [.. CoveragePage.Table(Survey.Of(11, 3))];
        Assert.Equal(once, again);
    }
}

using RigControl.Analysis.Figures;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Repeats;

public class RepeatStatisticsTests
{
    [Fact]
    public void One_run_says_that_repeatability_is_unknown()
    {
        RepeatStatistics one = RepeatStatistics.Of([new Measured(100, 2)]);
        Assert.True(double.IsNaN(one.Repeatability));
        Assert.True(double.IsNaN(one.Between));
        Assert.Equal((100, 2), (one.Mean.Value, one.Mean.Uncertainty));
        Assert.Contains(RepeatText.Of([Figure(1, 100)]), t => t.Contains("unknown", StringComparison.Ordinal));
    }

    /// <summary>Source: Student's table (from memory), t(0.975, 2) = 4.303; mean and deviation derived.</summary>
    [Fact]
    public void Three_repeats_have_a_t_interval()
    {
        RepeatStatistics three = RepeatStatistics.Of([new Measured(99, 0.1), new Measured(100, 0.1), new Measured(101, 0.1)]);
        Near.Relative(1, three.Repeatability, 1e-12);
        Near.Relative(Math.Sqrt(1 - 0.01), three.Between, 1e-9);
        Near.Relative(100 + 4.303 / Math.Sqrt(3), three.Mean.Interval95.High, 1e-5);
    }

    [Fact]
    public void Repeats_that_agree_by_chance_are_known_no_better_than_each_is()
    {
        RepeatStatistics equal = RepeatStatistics.Of([new Measured(5, 0.2), new Measured(5, 0.2)]);
        Near.Relative(0.2 / Math.Sqrt(2), equal.Mean.Uncertainty, 1e-12);
        Assert.Equal(0, equal.Between);
    }

    [Fact]
    public void A_drift_is_found_and_scatter_is_not_taken_for_one()
    {
        SplitMix chance = new(4);
        Assert.True(RepeatStatistics.Of([.. Enumerable.Range(0, 8).Select(i => new Measured(100 - 2 * i + 0.5 * chance.Bell(), 0.1))]).Drifts);
        int taken = Enumerable.Range(0, 400).Count(_ => RepeatStatistics.Of([.. Enumerable.Range(0, 6).Select(_ => new Measured(chance.Bell(), 0.1))]).Drifts);
        Assert.InRange(taken, 8, 36);
    }

    [Fact]
    public void A_repeat_that_stands_apart_is_flagged_and_still_counts()
    {
        Measured[] repeats = [.. new[] { 10.0, 10.1, 9.9, 10.05, 9.95, 14 }.Select(v => new Measured(v, 0.05))];
        RepeatStatistics statistics = RepeatStatistics.Of(repeats);
        Assert.Equal([5], statistics.Suspicious);
        Near.Relative(repeats.Average(r => r.Value), statistics.Mean.Value, 1e-12);
    }

    /// <summary>Source: derived; a 95 % interval holds the truth in 95 of 100.</summary>
    [Fact]
    public void The_interval_of_the_mean_holds_the_truth_as_often_as_it_says()
    {
        SplitMix chance = new(9);
        int held = 0;
        for (int trial = 0; trial < 2000; trial++)
        {
            (double low, double high) = RepeatStatistics.Of([.. Enumerable.Range(0, 3).Select(_ => new Measured(7 + chance.Bell(), 0.01))]).Mean.Interval95;
            held += low <= 7 && 7 <= high ? 1 : 0;
        }

        Assert.InRange(held / 2000.0, 0.935, 0.965);
    }

    [Fact]
    public void The_sentence_names_mean_scatter_and_what_stands_apart()
    {
        Figure[] figures = [.. new[] { 10.0, 10.1, 9.9, 10.05, 9.95, 14 }.Select((v, i) => Figure(i + 1, v))];
        string sentence = Assert.Single(RepeatText.Of(figures));
        Assert.Contains("mean of 6 repeats", sentence, StringComparison.Ordinal);
        Assert.Contains("repeat 6 stands apart", sentence, StringComparison.Ordinal);
    }

    private static Figure Figure(int repeat, double value) => new("steady-speed", value, "rpm", 0.05, (value - 0.1, value + 0.1), repeat, "mean", null);
}

using RigControl.Analysis.Figures;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;
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

    /// <summary>Source: derived; an inertia known to a tenth leaves three equal energies of 80.9 J known to 8.09 J, 15.9 J at 95 %, however often they are measured.</summary>
    [Fact]
    public void What_all_repeats_share_stays_whole_in_their_mean()
    {
        RepeatStatistics three = RepeatStatistics.Of([.. Enumerable.Range(0, 3).Select(_ => Made(80.9, 0.01, 8.09, "inertia"))]);
        Near.Relative(15.86, three.Mean.Interval95.High - 80.9, 1e-3);
        Near.Relative(8.09, three.Common, 1e-9);
        Near.Relative(0.01, three.Within, 1e-6);
        Assert.Equal("inertia", Assert.Single(three.Shared).Name);
    }

    [Fact]
    public void What_is_shared_stays_beside_a_scatter_that_is_larger_than_each_is_known_to()
    {
        RepeatStatistics three = RepeatStatistics.Of([Made(70, 0.1, 8, "inertia"), Made(80, 0.1, 8, "inertia"), Made(90, 0.1, 8, "inertia")]);
        Near.Relative(Math.Sqrt(64 + 100 / 3.0), three.Mean.Uncertainty, 1e-9);
        Assert.Equal(["inertia", "scatter of the repeats"], three.Mean.Budget.Select(b => b.Name));
        Near.Relative(Math.Sqrt(100 - 0.01), three.Between, 1e-9);
    }

    /// <summary>Source: derived from JCGM 100:2008, G.4.1: equal parts, one with 2 degrees of freedom and one with all of them, have 4 × 2.</summary>
    [Fact]
    public void Scatter_and_what_is_shared_have_the_effective_degrees_of_freedom_of_both()
    {
        double shared = 10 / Math.Sqrt(3);
        Near.Relative(8, RepeatStatistics.Of([Made(70, 0, shared, "inertia"), Made(80, 0, shared, "inertia"), Made(90, 0, shared, "inertia")]).Mean.Freedom, 1e-9);
    }

    [Theory]
    [InlineData("inertia", true)]
    [InlineData("winding-resistance", true)]
    [InlineData("calibration of battery.current", true)]
    [InlineData("warming of the winding", true)]
    [InlineData("terms left out", true)]
    [InlineData("scatter of the samples", false)]
    [InlineData("moment of the demand", false)]
    [InlineData("coast-down fit", false)]
    public void A_part_is_shared_by_its_kind(string part, bool shared)
    {
        RepeatStatistics four = RepeatStatistics.Of([.. Enumerable.Range(0, 4).Select(i => Made(10 + i, 0.1, 4, part))]);
        Near.Relative(shared ? 4 : 0, four.Common, 1e-9);
        Near.Relative(shared ? 0.1 : Math.Sqrt(16.01), four.Within, 1e-9);
    }

    [Fact]
    public void A_part_that_one_repeat_lacks_is_nobodys_but_the_others_own() =>
        Assert.Empty(RepeatStatistics.Of([Made(10, 0.1, 1, "inertia"), Made(11, 0.1, 1, "inertia"), new Measured(12, 1)]).Shared);

    /// <summary>Source: derived; a balance that shows the same every time hides the same each time, up to half of its step.</summary>
    [Fact]
    public void A_step_is_shared_while_all_stand_on_it_and_averages_out_where_they_scatter_over_several()
    {
        double step = Measured.OfResolution(1);
        RepeatStatistics same = RepeatStatistics.Of([.. Enumerable.Range(0, 4).Select(_ => Made(5, 0.01, step, "resolution"))]);
        RepeatStatistics several = RepeatStatistics.Of([.. new[] { 3.0, 5, 8, 4 }.Select(v => Made(v, 0.01, step, "resolution"))]);
        Near.Relative(step, same.Common, 1e-9);
        Assert.Equal(0, several.Common);
        Near.Relative(3, several.Mean.Freedom, 1e-9);
    }

    [Fact]
    public void More_that_is_shared_never_makes_the_interval_narrower()
    {
        foreach (int n in new[] { 2, 3, 5 })
        {
            double before = 0;
            for (double shared = 0; shared < 20; shared += 0.25)
            {
                (double low, double high) = RepeatStatistics.Of([.. Enumerable.Range(0, n).Select(i => Made(10 + i, 0.1, shared, "inertia"))]).Mean.Interval95;
                Assert.True(high - low >= before * (1 - 0.05), $"{n} repeats, {shared} shared: {high - low} after {before}");
                Assert.True(high - low >= Width(n, 0) * (1 - 1e-12));
                before = high - low;
            }
        }
    }

    /// <summary>
    /// Source: derived; a 95 % interval holds the truth in 95 of 100, whichever of what is each repeat's own and what all share is larger,
    /// whether each repeat says all of its own scatter, a part of it or nothing.
    /// </summary>
    [Theory]
    [InlineData(3, 0.1, 1)]
    [InlineData(3, 1, 1)]
    [InlineData(3, 10, 1)]
    [InlineData(3, 0.3, 0.001)]
    [InlineData(3, 1, 0.001)]
    [InlineData(3, 10, 0.001)]
    [InlineData(5, 0.1, 1)]
    [InlineData(5, 1, 0.5)]
    [InlineData(5, 10, 0.5)]
    [InlineData(8, 0.3, 0.001)]
    public void An_interval_of_repeats_that_share_an_error_holds_the_truth_as_often_as_it_says(int repeats, double share, double said)
    {
        // The shared part as a multiple of what the mean has from the repeats' own scatter of 1.
        double shared = share / Math.Sqrt(repeats);
        SplitMix chance = new(17);
        int held = 0;
        for (int trial = 0; trial < 2000; trial++)
        {
            double common = shared * chance.Bell();
            (double low, double high) = RepeatStatistics.Of([.. Enumerable.Range(0, repeats).Select(_ => Made(7 + common + chance.Bell(), said, shared, "calibration of battery.current"))]).Mean.Interval95;
            held += low <= 7 && 7 <= high ? 1 : 0;
        }

        Assert.InRange(held / 2000.0, 0.93, 0.97);
    }

    /// <summary>Source: derived; what a kept figure's interval says of its degrees of freedom is not lost when repeats agree.</summary>
    [Fact]
    public void Repeats_keep_the_degrees_of_freedom_that_each_figure_has()
    {
        double half = 2.776;
        Figure[] figures = [.. Enumerable.Range(1, 2).Select(i => new Figure("steady-speed", 100, "rpm", 1, (100 - half, 100 + half), i, "mean", null))];
        // Student's table (from memory): t(0.975, 4) = 2.776; two of them pooled have 8.
        Near.Absolute(8, Assert.Single(RepeatedFigure.Of(figures)).Statistics.Mean.Freedom, 0.05);
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

    [Fact]
    public void The_sentence_tells_within_between_what_is_common_and_the_degrees_of_freedom()
    {
        Figure[] figures = [.. new[] { 70.0, 80, 90 }.Select((v, i) => Figure(i + 1, v) with { Name = "stored-energy", Unit = "J", StandardUncertainty = 5, Budget = [new("inertia", 4, 0.64), new("peak speed", 3, 0.36)] })];
        Assert.Equal(
            "stored-energy: mean of 3 repeats 80 ± 25 J (95 %), scatter 10: within 3.0, between 9.5, common to all 4.0; degrees of freedom 4.4; more repeats do not make less of inertia",
            Assert.Single(RepeatText.Of(figures)));
    }

    private static double Width(int repeats, double shared)
    {
        (double low, double high) = RepeatStatistics.Of([.. Enumerable.Range(0, repeats).Select(i => Made(10 + i, 0.1, shared, "inertia"))]).Mean.Interval95;
        return high - low;
    }

    // A figure with something of its own and one named part besides.
    private static Measured Made(double value, double own, double part, string name) => Measured.Of(value, new Input("readings", 0, own), new Input(name, 0, part));

    private static Figure Figure(int repeat, double value) => new("steady-speed", value, "rpm", 0.05, (value - 0.1, value + 0.1), repeat, "mean", null);
}

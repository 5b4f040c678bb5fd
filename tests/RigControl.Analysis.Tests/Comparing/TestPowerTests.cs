using RigControl.Analysis.Comparing;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Comparing;

/// <summary>A comparison sees what it promised to see, as often as it promised.</summary>
public class TestPowerTests
{
    [Fact]
    public void The_power_of_a_test_without_a_difference_is_its_level()
    {
        foreach (double freedom in new[] { 2, 4, 10, 30, double.PositiveInfinity })
            Assert.Equal(0.05, TestPower.Of(0, freedom, 0.05), 0.0005);
    }

    [Fact]
    public void The_power_rises_with_the_difference_and_with_the_level()
    {
        double before = 0;
        for (double ratio = 0; ratio < 6; ratio += 0.25)
        {
            double power = TestPower.Of(ratio, 8, 0.05);
            Assert.True(power > before && power > TestPower.Of(ratio, 8, 0.01));
            before = power;
        }
    }

    [Fact]
    public void The_detectable_difference_is_seen_with_the_promised_power()
    {
        foreach (double freedom in new[] { 2, 4.5, 20, double.PositiveInfinity })
            Assert.Equal(TestPower.Promised, TestPower.Of(TestPower.Detectable(freedom, 0.01), freedom, 0.01), 1e-6);
    }

    // Cohen's table for d = 0.8, two-sided 5 %, power 0.8: 26 a side (J. Cohen, Psychological Bulletin 112 (1992) 155, table 2; from memory).
    [Theory]
    [InlineData(0.8, 26)]
    [InlineData(0.5, 64)]
    public void The_runs_asked_for_are_those_of_the_published_table(double difference, int runs) =>
        Assert.Equal(runs, TestPower.RunsFor(difference, 1, 0.05, 500));

    // R 4.2.2, power.t.test with strict = TRUE, read from its output.
    [Theory]
    [InlineData(5, 2, 1, 0.05, 0.790542377972668)]
    [InlineData(4, 1.5, 0.8, 0.01, 0.270208680351639)]
    public void The_power_is_that_of_a_general_statistics_package(int runs, double difference, double scatter, double level, double power) =>
        Assert.Equal(power, TestPower.Of(difference / (scatter * Math.Sqrt(2.0 / runs)), 2 * runs - 2, level), 0.002);

    // R 4.2.2, power.t.test(power = 0.8, …)$n is 11.94, 3.76 and 33.02; the next whole run up.
    [Theory]
    [InlineData(1.2, 12)]
    [InlineData(2.5, 4)]
    [InlineData(0.7, 34)]
    public void The_runs_asked_for_are_those_of_a_general_statistics_package(double difference, int runs) =>
        Assert.Equal(runs, TestPower.RunsFor(difference, 1, 0.05, 100));

    [Fact]
    public void A_difference_that_would_take_too_many_runs_gets_no_plan() => Assert.Null(TestPower.RunsFor(0.01, 1, 0.05, 100));

    [Theory]
    [InlineData(1.5, 71UL)]
    [InlineData(2.5, 72UL)]
    [InlineData(4, 73UL)]
    public void Runs_laid_out_for_a_difference_see_it_at_least_as_often_as_promised(double difference, ulong seed)
    {
        int runs = TestPower.RunsFor(difference, 1, 0.05, 100)!.Value;
        SplitMix chance = new(seed);
        const int trials = 2000;
        int seen = 0;
        for (int trial = 0; trial < trials; trial++)
            seen += Difference.Of(Draw.Group(ref chance, runs, 100, 1), Draw.Group(ref chance, runs, 100 + difference, 1), sameRig: true).Chance < 0.05 ? 1 : 0;
        // Welch's degrees of freedom are a little fewer than Student's; four standard deviations of the count besides.
        double allowed = TestPower.Promised - 0.02 - 4 * Math.Sqrt(TestPower.Promised * (1 - TestPower.Promised) / trials);
        Assert.True((double)seen / trials > allowed, $"seed {seed}: {seen} of {trials} with {runs} runs a side");
    }
}

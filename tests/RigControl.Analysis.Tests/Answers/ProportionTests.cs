using RigControl.Analysis.Answers;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Answers;

public class ProportionTests
{
    private const double Exact = 1;

    /// <summary>Source: derived; with none of n passed half of (1 − p)ⁿ is 0.025 at the upper limit, the "rule of three" of one side.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    [InlineData(300)]
    public void Where_none_or_all_passed_the_limit_is_that_of_one_side(int trials)
    {
        Near.Relative(1 - Math.Pow(0.05, 1.0 / trials), Proportion.Limits(0, trials).High, 1e-9);
        Near.Relative(Math.Pow(0.05, 1.0 / trials), Proportion.Limits(trials, trials).Low, 1e-9);
        Assert.Equal((0, 1), (Proportion.Limits(0, trials).Low, Proportion.Limits(trials, trials).High));
    }

    [Fact]
    public void Over_many_questions_the_limits_hold_about_as_often_as_they_say()
    {
        SplitMix chance = new(19);
        int held = 0;
        for (int run = 0; run < 20_000; run++)
        {
            double truth = chance.Uniform();
            int trials = 5 + (int)(30 * chance.Uniform()), passed = Enumerable.Range(0, trials).Count(_ => chance.Uniform() < truth);
            (double low, double high) = Proportion.Limits(passed, trials);
            held += low <= truth && truth <= high ? 1 : 0;
        }

        Assert.True(held is >= 18_800 and <= 19_400, $"seed 19: {held} of 20000");
    }

    /// <summary>Source: NIST/SEMATECH e-Handbook, 7.2.4.2 (case read: 4 of 20 at 90 %; printed limits from memory; found there by a spreadsheet's search, which ends early).</summary>
    [Fact]
    public void Four_of_twenty_have_the_limits_of_the_handbook()
    {
        (double low, double high) = Proportion.Limits(4, 20, 0.90, Exact);
        Near.Absolute(0.071354, low, 1.5e-6);
        Near.Absolute(0.401029, high, 1.5e-6);
    }

    /// <summary>Source: tables of exact limits of a binomial share, such as those of Clopper and Pearson (from memory, four digits).</summary>
    [Theory]
    [InlineData(5, 10, 0.1871, 0.8129)]
    [InlineData(8, 10, 0.4439, 0.9748)]
    [InlineData(1, 10, 0.0025, 0.4450)]
    [InlineData(0, 10, 0, 0.3085)]
    [InlineData(10, 10, 0.6915, 1)]
    public void Small_counts_have_the_limits_of_the_tables(int passed, int trials, double low, double high)
    {
        (double foundLow, double foundHigh) = Proportion.Limits(passed, trials, own: Exact);
        Near.Absolute(low, foundLow, 6e-5);
        Near.Absolute(high, foundHigh, 6e-5);
    }

    /// <summary>Source: derived; with none of n passed the upper limit p solves (1 − p)ⁿ = 0.025.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(20)]
    [InlineData(500)]
    public void Where_none_passed_the_limit_is_the_closed_form(int trials)
    {
        Near.Relative(1 - Math.Pow(0.025, 1.0 / trials), Proportion.Limits(0, trials, own: Exact).High, 1e-9);
        Near.Relative(Math.Pow(0.025, 1.0 / trials), Proportion.Limits(trials, trials, own: Exact).Low, 1e-9);
    }

    [Fact]
    public void Exact_limits_hold_the_truth_at_least_as_often_as_they_say()
    {
        SplitMix chance = new(17);
        foreach (double truth in new[] { 0.05, 0.5, 0.8, 0.97 })
        {
            int held = 0;
            for (int run = 0; run < 2000; run++)
            {
                int passed = Enumerable.Range(0, 15).Count(_ => chance.Uniform() < truth);
                (double low, double high) = Proportion.Limits(passed, 15, own: Exact);
                held += low <= truth && truth <= high ? 1 : 0;
            }

            // 2000 runs of at least 95 %: fewer than 1871 happen once in a thousand.
            Assert.True(held >= 1871, $"seed 17: {held} of 2000 hold {truth}");
        }
    }

    [Fact]
    public void A_count_that_cannot_be_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.Limits(4, 3));
}

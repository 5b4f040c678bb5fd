using RigControl.Analysis.Comparing;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Comparing;

/// <summary>Welch's test and Holm's correction against published values and a general statistics package.</summary>
public class DifferenceTests
{
    // Student's own example, the additional sleep with two substances (Student, Biometrika 6 (1908) 1), as R's data set "sleep".
    private static readonly double[] SleepA = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
    private static readonly double[] SleepB = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

    private static readonly double[] Few = [1.9907, 1.9994, 1.9977], Fewer = [1.9321, 1.9288];
    private static readonly double[] Quiet = [10, 10.2, 9.9, 10.1, 10.05], Loud = [12, 9, 14, 11, 10, 13, 8, 12.5];
    private static readonly double[] High = [1e9 + 1, 1e9 + 2, 1e9 + 3, 1e9 + 4], Higher = [1e9 + 2.5, 1e9 + 3.5, 1e9 + 5];

    // t, degrees of freedom, p and the ends of the interval: R 4.2.2, t.test(b, a), read from its output.
    public static TheoryData<double[], double[], double[]> Package => new()
    {
        { SleepA, SleepB, [1.86081346748685, 17.7764735161785, 0.0793941401873582, -0.20548323071171, 3.36548323071171] },
        { Few, Fewer, [-20.9069233077222, 2.95851992504355, 0.000261580538797168, -0.0755307194675443, -0.0554359471991224] },
        { Quiet, Loud, [1.55131165733413, 7.06528439470115, 0.164372123098962, -0.593119342119616, 2.86811934211961] },
        { High, Higher, [1.20049005510911, 4.52446183953033, 0.289004519883232, -1.41256796734182, 3.74590122120229] },
    };

    [Theory]
    [MemberData(nameof(Package))]
    public void A_difference_is_that_of_a_general_statistics_package(double[] a, double[] b, double[] expected)
    {
        Difference found = Difference.Of(Values(a), Values(b), sameRig: true);
        (double low, double high) = found.Interval95!.Value;
        double[] told = [found.Value / found.StandardError, found.Freedom, found.Chance, low, high];
        for (int i = 0; i < expected.Length; i++)
            Assert.Equal(1, told[i] / expected[i], 1e-6);
    }

    // R 4.2.2, p.adjust(…, "holm"), read from its output.
    [Theory]
    [InlineData(new[] { 0.01, 0.04, 0.03, 0.005, 0.5, 0.04 }, new[] { 0.05, 0.12, 0.12, 0.03, 0.5, 0.12 })]
    [InlineData(new[] { 0.9, 0.8, 0.3 }, new[] { 1, 1, 0.9 })]
    [InlineData(new[] { 0.001, 0.001, 0.049, 0.2, 0.06, 0.012, 0.7 }, new[] { 0.007, 0.007, 0.196, 0.4, 0.196, 0.06, 0.7 })]
    public void A_correction_for_many_figures_is_that_of_a_general_statistics_package(double[] chances, double[] expected)
    {
        double[] adjusted = Holm.Adjust(chances);
        for (int i = 0; i < expected.Length; i++)
            Assert.Equal(expected[i], adjusted[i], 1e-12);
    }

    [Fact]
    public void What_cannot_be_told_counts_for_nothing_in_the_correction() =>
        Assert.Equal([0.02, double.NaN, 0.04], Holm.Adjust([0.01, double.NaN, 0.04]));

    [Theory]
    [InlineData(2, 2, 1, 61UL)]
    [InlineData(3, 5, 4, 62UL)]
    [InlineData(8, 8, 1, 63UL)]
    public void Without_a_difference_one_comparison_in_twenty_is_a_false_alarm(int countA, int countB, double ratio, ulong seed)
    {
        const int trials = 4000;
        SplitMix chance = new(seed);
        int alarms = 0;
        for (int trial = 0; trial < trials; trial++)
            alarms += Difference.Of(Draw.Group(ref chance, countA, 50, 1), Draw.Group(ref chance, countB, 50, ratio), sameRig: true).Chance < 0.05 ? 1 : 0;
        // With two values a side the test is known to be cautious; never more than the level and what chance adds.
        Assert.InRange((double)alarms / trials, 0.02, 0.05 + 4 * Math.Sqrt(0.05 * 0.95 / trials));
    }

    [Fact]
    public void A_single_value_is_held_against_the_scatter_of_the_others_with_one_false_alarm_in_twenty()
    {
        const int trials = 4000;
        SplitMix chance = new(64);
        int alarms = 0;
        for (int trial = 0; trial < trials; trial++)
            alarms += Difference.Of(Draw.Group(ref chance, 1, 50, 1), Draw.Group(ref chance, 6, 50, 1), sameRig: true).Chance < 0.05 ? 1 : 0;
        Assert.Equal(0.05, (double)alarms / trials, 0.014);
    }

    [Fact]
    public void Two_single_values_tell_nothing()
    {
        Difference found = Difference.Of(Values([1]), Values([2]), sameRig: true);
        Assert.Equal((1.0, null), (found.Value, found.Interval95));
        Assert.True(double.IsNaN(found.Chance));
    }

    [Fact]
    public void On_one_rig_its_calibration_cancels_and_between_two_it_does_not()
    {
        ValueGroup a = new([10, 10.1, 9.9], 1, Fresh: false), b = new([11, 11.1, 10.9], 1, Fresh: false);
        Assert.True(Difference.Of(a, b, sameRig: true).Chance < 0.001);
        Assert.True(Difference.Of(a, b, sameRig: false).Chance > 0.4);
        Assert.Equal(Math.Sqrt(2 + 2 * 0.01 / 3), Difference.Of(a, b, sameRig: false).StandardError, 1e-9);
    }

    [Fact]
    public void Hand_readings_that_agree_to_the_last_digit_still_scatter_by_their_resolution()
    {
        double step = 1 / Math.Sqrt(12);
        Difference found = Difference.Of(new ValueGroup([180, 180, 180], step, Fresh: true), new ValueGroup([181, 181, 181], step, Fresh: true), sameRig: true);
        Assert.Equal(step * Math.Sqrt(2.0 / 3), found.StandardError, 1e-12);
        Assert.InRange(found.Chance, 0.005, 0.05);
    }

    [Fact]
    public void Values_without_any_scatter_and_without_uncertainty_differ_or_do_not()
    {
        Assert.Equal(0, Difference.Of(Values([1, 1]), Values([2, 2]), sameRig: true).Chance);
        Assert.Equal(1, Difference.Of(Values([1, 1]), Values([1, 1]), sameRig: true).Chance);
    }

    [Fact]
    public void Swapping_the_sides_turns_the_sign_and_nothing_else()
    {
        Difference one = Difference.Of(Values(Quiet), Values(Loud), sameRig: true), other = Difference.Of(Values(Loud), Values(Quiet), sameRig: true);
        Assert.Equal(-one.Value, other.Value, 1e-12);
        Assert.Equal(one.Chance, other.Chance, 1e-12);
    }

    [Fact]
    public void An_empty_side_is_refused() => Assert.Throws<ArgumentException>(() => Difference.Of(Values([]), Values([1]), sameRig: true));

    private static ValueGroup Values(double[] values) => new(values, 0, Fresh: false);
}

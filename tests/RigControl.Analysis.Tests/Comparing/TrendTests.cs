using RigControl.Analysis.Comparing;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Comparing;

/// <summary>A trend flags what leaves its band and what creeps, and seldom anything else.</summary>
public class TrendTests
{
    [Fact]
    public void The_first_three_values_have_no_band() => Assert.All(Trend.Of([1, 2, 3]), p => Assert.Null(p.Expected));

    [Fact]
    public void No_values_give_no_points() => Assert.Empty(Trend.Of([]));

    [Theory]
    [InlineData(91UL)]
    [InlineData(92UL)]
    public void While_nothing_changes_one_value_in_a_hundred_is_outside_from_the_fourth_on(ulong seed)
    {
        SplitMix chance = new(seed);
        (int outside, int told) = (0, 0);
        for (int trial = 0; trial < 1000; trial++)
        {
            foreach (TrendPoint point in Trend.Of(Draw.Group(ref chance, 20, 500, 7).Values).Skip(3))
            {
                told++;
                outside += point.Outside ? 1 : 0;
            }
        }

        // Leaving out what was outside narrows the next bands a little.
        Assert.InRange((double)outside / told, 0.008, 0.016);
    }

    [Fact]
    public void Within_twenty_runs_without_a_change_hardly_any_trend_is_said_to_creep()
    {
        SplitMix chance = new(93);
        int creeping = 0;
        for (int trial = 0; trial < 1000; trial++)
            creeping += Trend.Of(Draw.Group(ref chance, 20, 500, 7).Values).Any(p => p.Creeping != 0) ? 1 : 0;
        Assert.InRange(creeping, 0, 60);
    }

    [Fact]
    public void A_slow_loss_that_stays_within_its_bands_is_seen_before_thirty_runs_and_with_its_direction()
    {
        SplitMix chance = new(94);
        int seen = 0;
        for (int trial = 0; trial < 300; trial++)
        {
            double[] values = [.. Draw.Group(ref chance, 45, 30, 0.5).Values.Select((v, i) => i < 15 ? v : v - 0.04 * (i - 15))];
            seen += Trend.Of(values).Any(p => p.Creeping < 0) ? 1 : 0;
            Assert.DoesNotContain(Trend.Of(values).Take(12), p => p.Creeping < 0 && p.Outside && p.Expected is null);
        }

        Assert.True(seen > 240, $"{seen} of 300");
    }

    [Fact]
    public void A_step_is_outside_at_once_and_stays_so_since_it_does_not_become_the_normal()
    {
        double[] values = [10, 10.1, 9.9, 10, 10.05, 9.95, 10, 12, 12.1, 11.9];
        Assert.Equal([7, 8, 9], Trend.Of(values).Select((p, i) => (p, i)).Where(p => p.p.Outside).Select(p => p.i));
    }

    [Fact]
    public void Values_that_are_all_alike_are_as_expected_and_the_first_other_one_is_not()
    {
        IReadOnlyList<TrendPoint> points = Trend.Of([5, 5, 5, 5, 5, 5.001]);
        Assert.DoesNotContain(points.Take(5), p => p.Outside);
        Assert.True(points[5].Outside);
    }
}

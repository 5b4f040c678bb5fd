using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Tests.Traces;

public class SeriesTests
{
    private static readonly Series Ramp = new("rpm", 0, [0, 1, 2, 3, 4], [0, 10, 20, 10, 0]);

    [Theory]
    [InlineData(1, 3, 3)]
    [InlineData(0.5, 3.5, 3)]
    [InlineData(-1, 9, 5)]
    [InlineData(4.5, 9, 0)]
    public void A_part_of_a_series_holds_the_samples_of_its_time(double from, double to, int count) =>
        Assert.Equal(count, Ramp.Between(from, to).Count);

    [Theory]
    [InlineData(0, 4, 5, false, new double[] { 0, 1, 2, 3, 4 })]
    [InlineData(0, 4, 2, false, new double[] { 0, 2, 4 })]
    [InlineData(1, 3, 9, false, new double[] { 1, 2, 3 })]
    [InlineData(0, 4, 9, true, new double[] { 2, 3, 4 })]
    [InlineData(5, 9, 3, true, new double[] { })]
    public void Few_samples_of_a_stretch_are_picked_evenly_from_its_first_or_its_highest_on(double from, double to, int count, bool fromHighest, double[] times) =>
        Assert.Equal(times, Ramp.Picked(from, to, count, fromHighest).Times);

    [Fact]
    public void A_crossing_lies_on_the_line_between_two_samples()
    {
        Assert.Equal(0.5, Ramp.Crossing(5, 0, rising: true));
        Assert.Equal(3.5, Ramp.Crossing(5, 0, rising: false));
    }

    [Fact]
    public void A_level_that_is_never_reached_is_not_crossed() => Assert.Null(Ramp.Crossing(25, 0, rising: true));

    [Fact]
    public void A_crossing_before_the_beginning_does_not_count() => Assert.Null(Ramp.Crossing(5, 2, rising: true));

    [Fact]
    public void The_mean_period_is_that_between_the_samples()
    {
        Assert.Equal(1, Ramp.MeanPeriod);
        Assert.Equal(0, Ramp.Between(0, 0).MeanPeriod);
    }
}

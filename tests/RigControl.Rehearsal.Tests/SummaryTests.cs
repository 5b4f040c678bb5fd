using RigControl.Rehearsal.Results;

namespace RigControl.Rehearsal.Tests;

public class SummaryTests
{
    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.5, 3)]
    [InlineData(1, 5)]
    [InlineData(0.125, 1.5)]
    public void A_quantile_lies_in_proportion_between_its_neighbours(double share, double expected) =>
        Assert.Equal(expected, Summary.Quantile([5, 1, 3, 2, 4], share), 1e-12);

    [Fact]
    public void One_value_is_every_quantile_of_itself() => Assert.Equal(7, Summary.Quantile([7], 0.975));

    [Fact]
    public void Bands_gathered_apart_and_joined_are_those_gathered_together()
    {
        Random random = new(4);
        BandTable all = new(2, 3), one = new(2, 3), two = new(2, 3);
        for (int i = 0; i < 5000; i++)
        {
            (int channel, int step, TimeSpan at, double value) = (random.Next(2), random.Next(3), TimeSpan.FromMilliseconds(random.Next(3000)), random.NextDouble());
            all.Add(channel, step, at, value);
            (random.Next(2) == 0 ? one : two).Add(channel, step, at, value);
        }

        one.Join(two);
        for (int channel = 0; channel < 2; channel++)
        for (int step = 0; step < 3; step++)
        {
            Assert.Equal(all.Of(channel, "c").Steps[step].Low, one.Of(channel, "c").Steps[step].Low);
            Assert.Equal(all.Of(channel, "c").Steps[step].High, one.Of(channel, "c").Steps[step].High);
        }
    }

    [Fact]
    public void A_stretch_that_no_sample_reached_has_the_one_before_s_band()
    {
        BandTable table = new(1, 1);
        table.Add(0, 0, TimeSpan.Zero, 5);
        table.Add(0, 0, TimeSpan.FromMilliseconds(120), 9);
        Assert.Equal([5, 5, 9], table.Of(0, "c").Steps[0].Low);
    }
}

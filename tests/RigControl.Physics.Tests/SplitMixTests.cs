namespace RigControl.Physics.Tests;

public class SplitMixTests
{
    /// <summary>Source: test vector of SplitMix64 for seed 1234567, widely published (from memory).</summary>
    [Fact]
    public void The_numbers_are_the_published_ones()
    {
        var chance = new SplitMix(1234567);
        ulong[] expected = [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821];
        Assert.Equal(expected, Enumerable.Range(0, 5).Select(_ => chance.Next()));
    }

    [Fact]
    public void Even_numbers_fill_zero_to_one_evenly()
    {
        var chance = new SplitMix(1);
        int[] tenths = new int[10];
        for (int i = 0; i < 100_000; i++)
            tenths[(int)(10 * chance.Uniform())]++;
        Assert.All(tenths, count => Assert.InRange(count, 9_500, 10_500));
    }

    [Fact]
    public void A_range_is_kept()
    {
        var chance = new SplitMix(2);
        for (int i = 0; i < 10_000; i++)
            Assert.InRange(chance.Uniform(-3, 5), -3, 5);
    }

    [Fact]
    public void The_bell_has_mean_zero_deviation_one_and_an_end()
    {
        var chance = new SplitMix(3);
        double[] values = [.. Enumerable.Range(0, 200_000).Select(_ => chance.Bell())];
        Near.Absolute(0, values.Average(), 0.01);
        Near.Absolute(1, values.Average(x => x * x), 0.01);
        Assert.True(values.Max(Math.Abs) <= 2 * Math.Sqrt(3));
    }
}

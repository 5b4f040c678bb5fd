namespace RigControl.Physics.Tests;

public class SensorNoiseTests
{
    [Fact]
    public void A_sensor_that_nobody_set_tells_the_truth()
    {
        var chance = new SplitMix(1);
        Assert.Equal(12.345, default(SensorNoise).Read(12.345, ref chance));
    }

    [Fact]
    public void Readings_lie_on_the_resolution()
    {
        var chance = new SplitMix(1);
        var noise = new SensorNoise(0.3, 0.25, 0, 0);
        for (int i = 0; i < 1000; i++)
            Assert.Equal(0, noise.Read(7, ref chance) % 0.25);
    }

    [Fact]
    public void Readings_scatter_by_the_stated_deviation_about_the_truth()
    {
        var chance = new SplitMix(2);
        var noise = new SensorNoise(0.5, 0, 0, 0);
        double[] values = [.. Enumerable.Range(0, 100_000).Select(_ => noise.Read(20, ref chance))];
        Near.Absolute(20, values.Average(), 0.01);
        Near.Absolute(0.25, values.Average(x => (x - 20) * (x - 20)), 0.005);
    }

    [Fact]
    public void Offset_and_gain_error_shift_the_reading()
    {
        var chance = new SplitMix(3);
        Near.Relative(10 * 1.02 + 0.1, new SensorNoise(0, 0, 0.1, 0.02).Read(10, ref chance), 1e-12);
    }
}

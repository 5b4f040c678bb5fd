using RigControl.Analysis.Figures;
using RigControl.Analysis.Power;
using RigControl.Analysis.Traces;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Power;

/// <summary>Currents as a ramp makes them: they climb to its end and fall as the rotor catches up; the tip lies between two samples.</summary>
public class CornerTests
{
    private const double Period = 0.01;
    private const double Tip = 1.0037;
    private const int Runs = 300;

    /// <param name="time">Time constant of the fall, s: at 0.05 a tenth of the peak is gone by the next sample but one.</param>
    [Theory]
    [InlineData(0.05, 0.05)]
    [InlineData(0.05, 0.5)]
    [InlineData(0.3, 0.05)]
    [InlineData(0.3, 0.5)]
    public void The_tip_between_two_samples_is_told_with_an_interval_that_holds_it(double time, double noise)
    {
        SplitMix chance = new(71);
        double off = 0, width = 0;
        int held = 0;
        for (int run = 0; run < Runs; run++)
        {
            Measured found = Extreme.Of(new Series("A", 0, Times(), Seen(t => Current(t, time), noise, ref chance)), highest: true);
            (double low, double high) = found.Interval95;
            off += found.Value - 10;
            width += high - low;
            held += low <= 10 && 10 <= high ? 1 : 0;
        }

        Assert.True(held >= 0.9 * Runs, $"seed 71: {held} of {Runs} intervals hold the tip");
        Assert.True(Math.Abs(off) < 0.1 * width, $"seed 71: off by {off / width:0.000} of the interval's width");
    }

    [Fact]
    public void A_tip_above_every_sample_is_told_from_both_sides()
    {
        SplitMix chance = new(72);
        Assert.True(Times().Max(t => Current(t, 0.1)) < 9.97);
        Measured found = Found(t => Current(t, 0.1), 0.003, ref chance)!;
        Assert.InRange(10, found.Value - 3 * found.Uncertainty, found.Value + 3 * found.Uncertainty);
        Assert.InRange(found.Uncertainty, 0.001, 0.01);
    }

    [Theory]
    [InlineData("level")]
    [InlineData("hill")]
    [InlineData("step")]
    public void What_has_no_corner_is_not_given_one(string shape)
    {
        SplitMix chance = new(73);
        int corners = 0;
        for (int run = 0; run < Runs; run++)
            corners += Found(t => shape switch { "level" => 10, "hill" => 10 - 2 * (t - 1) * (t - 1), _ => t < 1 ? 10 : 2 }, 0.1, ref chance) is null ? 0 : 1;
        Assert.True(corners < 0.03 * Runs, $"{shape}, seed 73: {corners} of {Runs}");
    }

    private static Measured? Found(Func<double, double> truth, double noise, ref SplitMix chance)
    {
        double[] values = Seen(truth, noise, ref chance);
        return Corner.Of(Times(), values, noise, Array.IndexOf(values, values.Max()));
    }

    private static double[] Seen(Func<double, double> truth, double noise, ref SplitMix chance)
    {
        double[] values = [.. Times().Select(truth)];
        for (int i = 0; i < values.Length; i++)
            values[i] += noise * chance.Bell();
        return values;
    }

    private static double[] Times() => [.. Enumerable.Range(0, 300).Select(i => i * Period)];

    // A, with its tip of 10.
    private static double Current(double t, double time) => t < Tip ? 10 * t / Tip : 2 + 8 * Math.Exp(-(t - Tip) / time);
}

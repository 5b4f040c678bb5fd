using RigControl.Analysis.Fitting;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

public class ParabolaTests
{
    /// <summary>Against the linear fit, which goes another way: orthogonal turns in two doubles.</summary>
    [Theory]
    [InlineData(4)]
    [InlineData(30)]
    [InlineData(800)]
    public void Value_slope_and_both_uncertainties_are_those_of_the_linear_fit_even_on_a_large_level(int count)
    {
        SplitMix chance = new(41);
        double[] times = [.. Enumerable.Range(0, count).Select(i => 1000 + 0.01 * i + 0.002 * chance.Uniform())];
        double[] values = [.. times.Select(t => 1e5 - 3 * (t - 1001) * (t - 1001) + chance.Bell())];
        Parabola quick = new(times, values, 0, count, noise: 1e-9);
        double[] x = [.. times.Select(t => t - times[0])];
        Fit fit = LinearFit.Solve([[.. x.Select(_ => 1.0)], x, [.. x.Select(a => a * a)]], values);
        double at = times[^1], far = at - times[0];
        Near.Absolute(fit.Parameters[0] + far * (fit.Parameters[1] + far * fit.Parameters[2]), quick.At(at), 1e-7);
        Near.Relative(fit.Parameters[1] + 2 * far * fit.Parameters[2], quick.Slope(at), 1e-6);
        Near.Relative(Known(fit, [1, far, far * far]), quick.UncertaintyAt(at), 1e-6);
        Near.Relative(Known(fit, [0, 1, 2 * far]), quick.UncertaintyOfSlope(at), 1e-6);
    }

    [Fact]
    public void The_scatter_of_few_samples_is_believed_no_less_than_that_of_all()
    {
        double[] times = [0, 1, 2, 3, 4, 5], values = [5, 5, 5, 5, 5, 5];
        Assert.Equal(2, new Parabola(times, values, 0, 6, noise: 2).UncertaintyAt(2.5) / new Parabola(times, values, 0, 6, noise: 1).UncertaintyAt(2.5), 9);
    }

    [Theory]
    [InlineData(0.0, true)]
    [InlineData(8.0, false)]
    public void A_third_power_is_described_only_where_it_is_small_beside_the_scatter(double cubic, bool describes)
    {
        SplitMix chance = new(43);
        double[] times = [.. Enumerable.Range(0, 100).Select(i => i / 50.0 - 1)];
        double[] values = [.. times.Select(t => 3 * t * t + cubic * t * t * t + chance.Bell())];
        Assert.Equal(describes, new Parabola(times, values, 0, 100, noise: 1).Describes(1));
    }

    [Theory]
    [InlineData(0.0, 0.5)]
    [InlineData(4.0, 0.75)]
    [InlineData(40.0, 1.0)]
    public void The_top_of_a_bend_is_found_but_not_beyond_the_ends_and_a_level_has_its_top_in_the_middle(double slope, double top)
    {
        double[] times = [.. Enumerable.Range(0, 101).Select(i => i / 100.0)];
        double[] values = [.. times.Select((t, i) => (slope == 0 ? 0 : slope * t - 8 * (t - 0.5) * (t - 0.5)) + (i % 2 == 0 ? 0.01 : -0.01))];
        Near.Absolute(top, new Parabola(times, values, 0, 101, noise: 0.01).Top(2.5, 0, 1), 0.01);
    }

    private static double Known(Fit fit, double[] row)
    {
        double variance = 0;
        for (int i = 0; i < row.Length; i++)
        {
            for (int j = 0; j < row.Length; j++)
                variance += row[i] * row[j] * fit.Covariance[i, j];
        }

        return Math.Sqrt(variance);
    }
}

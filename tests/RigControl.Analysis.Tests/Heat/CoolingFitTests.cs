using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Heat;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Heat;

public class CoolingFitTests
{
    /// <summary>
    /// Source: cooling of two cups over 46 minutes in a room of 17 degC, Gould and Tobochnik, Introduction to Computer Simulation Methods,
    /// ch. 2 (numbers read, attribution from memory): 0.02592 and 0.02370 per minute, from the first temperature as it was read.
    /// </summary>
    [Theory]
    [InlineData(1, 0.02592)]
    [InlineData(2, 0.02370)]
    public void A_cup_cools_at_the_published_rate(int column, double rate)
    {
        double[][] rows = Reference.Rows("opendata/coffee_cooling.csv");
        Assert.Equal(24, rows.Length);
        double[] minutes = [.. rows.Select(r => r[0])], values = [.. rows.Select(r => r[column])];
        Fit fit = LeastSquares.Solve(new FitProblem
        {
            Observed = values,
            Start = [0.1],
            Model = (p, predicted) =>
            {
                for (int i = 0; i < predicted.Length; i++)
                    predicted[i] = 17 + (values[0] - 17) * Math.Exp(-p[0] * minutes[i]);
            },
        });
        Near.Absolute(rate, fit.Parameters[0], 6e-6);
    }

    [Fact]
    public void A_cup_whose_first_minutes_are_quicker_is_described_within_a_degree()
    {
        double[][] rows = Reference.Rows("opendata/coffee_cooling.csv");
        CoolingFit fit = CoolingFit.Of([.. rows.Select(r => r[0])], [.. rows.Select(r => r[1])], 0.1, new Input("ambient", 17, 0.1));
        Assert.NotNull(fit.Quick);
        Assert.True(fit.Fit.ResidualDeviation < 0.3, $"{fit.Fit.ResidualDeviation} K");
    }

    // Its part is a few tenths of a degree: too little to be told, and enough to shorten the slow one by more than scatter would.
    [Fact]
    public void A_quick_lump_too_small_to_be_told_widens_what_is_said_of_the_slow_one()
    {
        SplitMix chance = new(12);
        double[] times = [.. Enumerable.Range(0, 300).Select(i => 2.0 * i)];
        int held = 0, untold = 0;
        for (int run = 0; run < 200; run++)
        {
            double[] values = [.. times.Select(t => 22 + 40 * Math.Exp(-t / 150) + 0.5 * Math.Exp(-t / 15) + 0.2 * chance.Bell())];
            CoolingFit fit = CoolingFit.Of(times, values, 0.1);
            (double low, double high) = fit.TimeConstant.Interval95;
            held += low <= 150 && 150 <= high ? 1 : 0;
            untold += fit.Quick is null ? 1 : 0;
        }

        Assert.True(untold > 100, $"seed 12: the quick lump was told in {200 - untold} of 200");
        Assert.True(held >= 180, $"seed 12: {held} of 200 intervals hold the truth");
    }

    [Fact]
    public void One_lump_gives_back_its_time_constant_within_its_uncertainty()
    {
        SplitMix chance = new(9);
        double[] times = [.. Enumerable.Range(0, 300).Select(i => 2.0 * i)];
        int held = 0;
        for (int run = 0; run < 200; run++)
        {
            double[] values = [.. times.Select(t => 22 + 40 * Math.Exp(-t / 150) + 0.2 * chance.Bell())];
            (double low, double high) = CoolingFit.Of(times, values, 0.1).TimeConstant.Interval95;
            held += low <= 150 && 150 <= high ? 1 : 0;
        }

        // 200 runs at 95 %: fewer than 180 happen once in a thousand.
        Assert.True(held >= 180, $"seed 9: {held} of 200 intervals hold the truth");
    }

    [Fact]
    public void More_noise_never_narrows_the_interval()
    {
        double[] times = [.. Enumerable.Range(0, 300).Select(i => 2.0 * i)];
        double last = 0;
        foreach (double noise in new[] { 0.05, 0.2, 0.8 })
        {
            SplitMix chance = new(10);
            double u = CoolingFit.Of(times, [.. times.Select(t => 22 + 40 * Math.Exp(-t / 150) + noise * chance.Bell())], 0.01).TimeConstant.Uncertainty;
            Assert.True(u > last, $"noise of {noise} K gives {u} s, less noise gave {last} s");
            last = u;
        }
    }

    [Fact]
    public void A_temperature_that_hardly_changed_gives_a_reason() =>
        Assert.Throws<NoFigureException>(() => CoolingFit.Of([.. Enumerable.Range(0, 50).Select(i => (double)i)], [.. Enumerable.Repeat(25.0, 50)], 0.1));
}

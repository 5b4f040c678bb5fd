using RigControl.Analysis.Figures;
using RigControl.Analysis.Heat;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Heat;

public class HeatingFitTests
{
    private static readonly Input Room = new("ambient", 20, 0.05);
    private static readonly Input Exact = new("ambient", 20, 0);

    [Fact]
    public void One_lump_heated_and_left_to_cool_gives_back_its_resistance_and_time_constant()
    {
        HeatingFit fit = Fit(chance: new SplitMix(3), noise: 0.1, (2.5, 120));
        Assert.Single(fit.Lumps);
        Holds(2.5, fit.Gain);
        Holds(120, fit.TimeConstant);
    }

    [Fact]
    public void Two_lumps_are_found_where_the_data_show_them()
    {
        HeatingFit fit = Fit(new SplitMix(4), 0.05, (2, 200), (1.2, 12));
        Assert.Equal(2, fit.Lumps.Count);
        Near.Relative(3.2, fit.Gain.Value, 0.03);
        Near.Relative(200, fit.Lumps[0].TimeConstant, 0.1);
        Near.Relative(12, fit.Lumps[1].TimeConstant, 0.2);
    }

    [Fact]
    public void A_second_lump_that_is_no_quicker_than_the_first_is_replaced_by_the_simpler_model() => Assert.Single(Fit(new SplitMix(5), 0.1, (1.5, 100), (1, 90)).Lumps);

    /// <summary>Source: derived; a first-order rise reaches the share 1 − exp(−t/τ).</summary>
    [Fact]
    public void The_time_to_a_limit_and_the_load_for_ever_follow_from_the_fit()
    {
        HeatingFit fit = Fit(new SplitMix(6), 0.02, (2.5, 120));
        Near.Relative(-120 * Math.Log(1 - 60 / (2.5 * 40)), fit.TimeTo(80, 40), 0.02);
        Assert.Equal(double.PositiveInfinity, fit.TimeTo(80, 20));
        Assert.Equal(0, fit.TimeTo(15, 20));
        Near.Relative(60 / 2.5, fit.Continuous(80, 20).Value, 0.01);
        Near.Relative(50 / 2.5, fit.Continuous(80, 30).Value, 0.01);
        Assert.Throws<NoFigureException>(() => fit.Continuous(80, 85));
    }

    /// <summary>
    /// Source: derived. Long before a part is as warm as it gets, the time to a temperature goes with the square of the current: what is hot
    /// in 10 s at 50 A is so in 16 s at 40 A, and not never. A life is another matter: where it falls with the 24th power of the voltage, a
    /// tenth less gives twelve times of it (common practice, no source), and heat gives a quarter.
    /// </summary>
    [Fact]
    public void What_is_too_hot_after_ten_seconds_at_50_A_is_so_at_40_A_a_little_later_and_a_tenth_less_saves_it_no_longer_than_a_quarter()
    {
        HeatingFit fit = Fit(new SplitMix(7), 0.02, (0.1, 100));
        double limit = 20 + 0.1 * 2500 * (1 - Math.Exp(-10.0 / 100));
        Near.Relative(10, fit.TimeTo(limit, 50 * 50), 0.02);
        Near.Relative(-100 * Math.Log(1 - (1 - Math.Exp(-10.0 / 100)) * 2500 / 1600), fit.TimeTo(limit, 40 * 40), 0.02);
        Assert.InRange(fit.TimeTo(limit, 45 * 45) / fit.TimeTo(limit, 50 * 50), 1.2, 1.3);
    }

    [Fact]
    public void A_part_that_nothing_heated_says_so() =>
        Assert.Contains("nothing heated", Assert.Throws<NoFigureException>(() => HeatingFit.Of([.. Enumerable.Range(0, 50).Select(i => (double)i)], [.. Enumerable.Range(0, 50).Select(i => 20.0 + i)], new double[50], Room)).Message, StringComparison.Ordinal);

    /// <summary>Of a hundred fits to the same part, whose scatter is what each of them claims; of two lumps also where the quick one bends the slow one's.</summary>
    [Theory]
    [InlineData(1.0, 0)]
    [InlineData(0.3, 1.2)]
    public void What_a_fit_claims_not_to_know_is_what_many_of_them_scatter_by(double noise, double quick)
    {
        (double Gain, double TimeConstant)[] lumps = quick > 0 ? [(2, 200), (quick, 12)] : [(2, 200)];
        HeatingFit[] fits = [.. Enumerable.Range(100, 100).Select(seed => FitIn(Exact, new SplitMix((ulong)seed), noise, lumps))];
        Assert.All(fits, f => Assert.Equal(lumps.Length, f.Lumps.Count));
        Assert.InRange(Scatter(fits, f => f.Gain, 2 + quick), 0.75, 1.25);
        Assert.InRange(Scatter(fits, f => f.TimeConstant, 200), 0.75, 1.25);
        Assert.InRange(Scatter(fits, f => f.TimeToLimit(60, 30, f.Ambient), Reached(60, lumps)), 0.75, 1.25);
    }

    /// <summary>A lump too quick and small to be told is no part of the long run to be forgotten: left out, it would take its part off it.</summary>
    [Fact]
    public void A_second_lump_that_is_not_told_takes_nothing_off_the_long_run()
    {
        HeatingFit[] fits = [.. Enumerable.Range(300, 100).Select(seed => FitIn(Exact, new SplitMix((ulong)seed), 0.3, (2, 200), (0.005, 5)))];
        Assert.True(fits.Count(f => f.Lumps.Count == 1) > 90);
        Assert.InRange(fits.Average(f => f.Gain.Value - 2.005) / fits.Average(f => f.Gain.Uncertainty), -0.35, 0.35);
        Assert.InRange(Scatter(fits, f => f.Gain, 2.005), 0.75, 1.25);
    }

    // Root mean square of the errors, each as a share of what it claims not to know.
    private static double Scatter(HeatingFit[] fits, Func<HeatingFit, Measured> of, double truth) => Math.Sqrt(fits.Average(f => Math.Pow((of(f).Value - truth) / of(f).Uncertainty, 2)));

    private static double Reached(double celsius, (double Gain, double TimeConstant)[] lumps)
    {
        double time = 0;
        while (20 + 30 * lumps.Sum(l => l.Gain * (1 - Math.Exp(-time / l.TimeConstant))) < celsius)
            time += 0.01;
        return time;
    }

    /// <summary>
    /// Source: measured 1C discharge of a 2.28 Ah pouch cell with its cooling afterwards, Ai et al., J. Electrochem. Soc. 167 (2020) 013512
    /// (read): a rise of 4.038 K, and a cell that cools back towards its surroundings.
    /// </summary>
    [Fact]
    public void A_measured_cell_warms_by_what_was_published_and_cools_as_one_lump_does()
    {
        double[][] rows = Reference.Rows("opendata/cells/rise_1c.txt");
        double[] times = [.. rows.Select(r => r[0])], rise = [.. rows.Select(r => r[1])];
        Near.Absolute(4.038, rise.Max() - rise[0], 0.02, "rise");
        int end = Array.IndexOf(rise, rise.Max());
        Near.Absolute(Reference.Rows("opendata/cells/voltage_1c.txt")[^1][0], times[end], 120, "the load ends at the top");
        CoolingFit cooling = CoolingFit.Of([.. times[end..].Where((_, i) => i % 20 == 0)], [.. rise[end..].Where((_, i) => i % 20 == 0)], 0.003, new Input("ambient", 0, 0.05));
        // A flat pouch of about 50 J/K and 0.02 m2 of skin at 5 to 15 W/(m2.K): common practice, no source.
        Assert.InRange(cooling.TimeConstant.Value, 150, 1000);
        Assert.True(cooling.TimeConstant.Uncertainty < 0.1 * cooling.TimeConstant.Value);
    }

    private static void Holds(double truth, Measured found)
    {
        Near.Relative(truth, found.Value, 0.02);
        Assert.InRange(truth, found.Value - 4 * found.Uncertainty, found.Value + 4 * found.Uncertainty);
    }

    // Half an hour: two loads with a rest between them, then cooling.
    private static HeatingFit Fit(SplitMix chance, double noise, params (double Gain, double TimeConstant)[] lumps) => FitIn(Room, chance, noise, lumps);

    private static HeatingFit FitIn(Input room, SplitMix chance, double noise, params (double Gain, double TimeConstant)[] lumps)
    {
        double[] times = [.. Enumerable.Range(0, 900).Select(i => 2.0 * i)];
        double[] load = [.. times.Select(t => t is < 300 or (> 420 and < 700) ? 30.0 : 0)];
        double[] state = new double[lumps.Length], temperatures = new double[times.Length];
        for (int i = 0; i < times.Length; i++)
        {
            for (int k = 0; i > 0 && k < lumps.Length; k++)
                state[k] += (lumps[k].Gain * load[i - 1] - state[k]) * (1 - Math.Exp(-2 / lumps[k].TimeConstant));
            temperatures[i] = 20 + state.Sum() + noise * chance.Bell();
        }

        return HeatingFit.Of(times, temperatures, load, room);
    }
}

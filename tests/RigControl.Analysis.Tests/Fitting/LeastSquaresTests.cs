using CsCheck;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Fitting;

public class LeastSquaresTests
{
    private static readonly double[] X = [.. Enumerable.Range(0, 40).Select(i => i * 0.1)];

    [Fact]
    public void A_bound_holds_a_parameter_and_says_so()
    {
        Fit fit = LeastSquares.Solve(Decay(3, 1.2) with { Lower = [0, 2], Upper = [10, 9], Start = [1, 5] });
        Assert.True(fit.AtBound[1]);
        Assert.Equal(2, fit.Parameters[1]);
        Assert.Equal(0, fit.Uncertainty(1));
        Assert.True(fit.Uncertainty(0) > 0);
    }

    [Fact]
    public void A_bound_that_the_way_only_touches_does_not_hold()
    {
        Fit fit = LeastSquares.Solve(Decay(3, 1.2) with { Lower = [0, 0.1], Upper = [3.5, 9], Start = [3.5, 0.1] });
        Near.Relative(3, fit.Parameters[0], 1e-9);
        Near.Relative(1.2, fit.Parameters[1], 1e-9);
        Assert.DoesNotContain(true, fit.AtBound);
    }

    [Fact]
    public void Own_derivatives_and_numeric_ones_give_the_same_fit()
    {
        FitProblem problem = Noisy(3, 1.2, 0.05, 7);
        Fit numeric = LeastSquares.Solve(problem);
        Fit own = LeastSquares.Solve(problem with
        {
            Slopes = (p, columns) =>
            {
                for (int i = 0; i < X.Length; i++)
                    (columns[0][i], columns[1][i]) = (Math.Exp(-p[1] * X[i]), -p[0] * X[i] * Math.Exp(-p[1] * X[i]));
            },
        });
        for (int j = 0; j < 2; j++)
        {
            Near.Relative(own.Parameters[j], numeric.Parameters[j], 1e-10);
            Near.Relative(own.Uncertainty(j), numeric.Uncertainty(j), 1e-9);
        }
    }

    [Fact]
    public void A_worse_observation_counts_less()
    {
        double[] u = [.. X.Select((_, i) => i == 5 ? 1e6 : 1.0)];
        FitProblem clean = Decay(3, 1.2);
        double[] spoilt = [.. clean.Observed.Select((y, i) => i == 5 ? y + 50 : y)];
        Fit fit = LeastSquares.Solve(clean with { Observed = spoilt, Uncertainties = u });
        Near.Relative(3, fit.Parameters[0], 1e-6);
    }

    /// <summary>Source: derived; a mean of n values known to u is known to u over the root of n.</summary>
    [Fact]
    public void Known_uncertainties_are_trusted_as_they_are()
    {
        Fit fit = LeastSquares.Solve(new FitProblem
        {
            Observed = [1, 1, 1, 1], Start = [0.5], Model = (p, f) => f.Fill(p[0]), Uncertainties = [0.2, 0.2, 0.2, 0.2], UncertaintiesKnown = true,
        });
        Near.Relative(0.1, fit.Uncertainty(0), 1e-12);
    }

    [Fact]
    public void Two_parameters_that_do_the_same_are_named()
    {
        FitProblem problem = Decay(3, 1.2) with
        {
            Start = [1, 1, 1], Names = ["height", "twin", "rate"],
            Model = (p, f) =>
            {
                for (int i = 0; i < X.Length; i++)
                    f[i] = (p[0] + p[1]) * Math.Exp(-p[2] * X[i]);
            },
        };
        string reason = Assert.Throws<FitFailedException>(() => LeastSquares.Solve(problem)).Message;
        Assert.Matches("height|twin", reason);
    }

    [Fact]
    public void Fewer_values_than_parameters_are_refused() =>
        Assert.Contains("1 values cannot settle 2", Assert.Throws<FitFailedException>(() =>
            LeastSquares.Solve(Decay(3, 1.2) with { Observed = [1] })).Message, StringComparison.Ordinal);

    [Fact]
    public void A_model_without_a_number_at_the_start_is_refused() =>
        Assert.Contains("no number", Assert.Throws<FitFailedException>(() =>
            LeastSquares.Solve(Decay(3, 1.2) with { Start = [double.NaN, 1] })).Message, StringComparison.Ordinal);

    [Fact]
    public void A_fit_that_does_not_settle_says_so() =>
        Assert.Contains("did not settle within 1 iterations", Assert.Throws<FitFailedException>(() =>
            LeastSquares.Solve(Decay(3, 1.2) with { MaximumIterations = 1 })).Message, StringComparison.Ordinal);

    [Fact]
    public void Residuals_that_hang_together_widen_the_uncertainty_and_never_narrow_it()
    {
        FitProblem problem = Noisy(3, 1.2, 0.05, 3);
        Fit alone = LeastSquares.Solve(problem);
        Assert.True(alone.WithSerialCorrelation().Uncertainty(0) >= alone.Uncertainty(0));
        // Each value keeps nine tenths of the deviation of the one before.
        double drift = 0;
        Physics.SplitMix chance = new(5);
        double[] drifting = [.. problem.Observed.Select(y => y + (drift = 0.9 * drift + 0.1 * chance.Bell()))];
        Fit hanging = LeastSquares.Solve(problem with { Observed = drifting });
        Assert.True(hanging.WithSerialCorrelation().Uncertainty(0) > 1.3 * hanging.Uncertainty(0));
    }

    [Fact]
    public void Observations_in_another_unit_give_the_same_parameters() => Gen.Select(Gen.Double[0.5, 20], Gen.Double[0.2, 3], Gen.Double[-6, 6]).Sample((height, rate, power) =>
    {
        double factor = Math.Pow(10, power);
        FitProblem problem = Noisy(height, rate, 0.02 * height, 11);
        Fit fit = LeastSquares.Solve(problem);
        Fit scaled = LeastSquares.Solve(problem with { Observed = [.. problem.Observed.Select(y => y * factor)], Start = [factor, 1] });
        Near.Relative(fit.Parameters[0] * factor, scaled.Parameters[0], 1e-8);
        Near.Relative(fit.Parameters[1], scaled.Parameters[1], 1e-8);
        Near.Relative(fit.Uncertainty(1), scaled.Uncertainty(1), 1e-7);
    }, iter: 100, seed: "0N0XIzNsQ0O2");

    /// <summary>Source: derived; with known noise the parameters scatter as the covariance foretells.</summary>
    [Fact]
    public void The_covariance_foretells_the_scatter_of_repeated_fits()
    {
        Fit[] fits = [.. Enumerable.Range(0, 400).Select(seed => LeastSquares.Solve(Noisy(3, 1.2, 0.05, seed)))];
        double seen = Summary.Deviation([.. fits.Select(f => f.Parameters[1])]);
        double told = Math.Sqrt(fits.Average(f => f.Covariance[1, 1]));
        Assert.InRange(seen / told, 0.9, 1.1);
    }

    [Fact]
    public void A_linear_fit_of_columns_that_do_the_same_is_refused() =>
        Assert.Throws<FitFailedException>(() => LinearFit.Solve([X, [.. X.Select(x => 2 * x)]], X));

    private static FitProblem Decay(double height, double rate) => new()
    {
        Observed = [.. X.Select(x => height * Math.Exp(-rate * x))],
        Start = [1, 1],
        Model = (p, f) =>
        {
            for (int i = 0; i < X.Length; i++)
                f[i] = p[0] * Math.Exp(-p[1] * X[i]);
        },
    };

    private static FitProblem Noisy(double height, double rate, double noise, int seed)
    {
        Physics.SplitMix chance = new((ulong)seed);
        FitProblem clean = Decay(height, rate);
        return clean with { Observed = [.. clean.Observed.Select(y => y + noise * chance.Bell())] };
    }
}

using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace RigControl.Analysis.Answers;

/// <summary>Limits of a share that was counted.</summary>
public static class Proportion
{
    /// <summary>
    /// Exact two-sided limits of the share behind <paramref name="passed"/> of <paramref name="trials"/>, 0 to 1: no share between them
    /// makes the count improbable at either end. C. Clopper and E. Pearson, Biometrika 26 (1934) 404 (from memory).
    /// </summary>
    /// <param name="passed">0 to <paramref name="trials"/>.</param>
    /// <param name="trials">1 and above.</param>
    /// <param name="probability">Above 0 and below 1.</param>
    public static (double Low, double High) Exact(int passed, int trials, double probability = 0.95)
    {
        if (trials < 1 || passed < 0 || passed > trials)
            throw new ArgumentOutOfRangeException(nameof(passed), $"{passed} of {trials} cannot be");
        double tail = (1 - probability) / 2;
        double low = passed == 0 ? 0 : Solve(p => 1 - Below(passed - 1, trials, p) - tail);
        double high = passed == trials ? 1 : Solve(p => tail - Below(passed, trials, p));
        return (low, high);
    }

    /// <summary>Standard deviation of what the share may be, by Jeffreys' rule: above 0 even where all passed or all failed.</summary>
    public static double Deviation(int passed, int trials) => new Beta(passed + 0.5, trials - passed + 0.5).StdDev;

    // Probability of at most k of n: the regularised incomplete beta function (Abramowitz and Stegun 26.5.24, from memory).
    private static double Below(int k, int n, double p) => SpecialFunctions.BetaRegularized(n - k, k + 1, 1 - p);

    // The function rises over 0 to 1; halving is certain and quick enough.
    private static double Solve(Func<double, double> rising)
    {
        (double low, double high) = (0, 1);
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = rising(middle) > 0 ? (low, middle) : (middle, high);
        }

        return (low + high) / 2;
    }
}

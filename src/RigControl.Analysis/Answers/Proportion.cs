using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace RigControl.Analysis.Answers;

/// <summary>Limits of a share that was counted.</summary>
public static class Proportion
{
    /// <summary>
    /// Two-sided limits of the share behind <paramref name="passed"/> of <paramref name="trials"/>, 0 to 1: no share between them makes the
    /// count improbable at either end. Where the count itself is half to either end they hold about as often as they say, taken over many questions
    /// (H. Lancaster, J. Am. Stat. Assoc. 56 (1961) 223, from memory); where it is whole to both they are exact, which is at least as often
    /// whatever the share, and oftener with few trials (C. Clopper and E. Pearson, Biometrika 26 (1934) 404, from memory).
    /// </summary>
    /// <param name="passed">0 to <paramref name="trials"/>.</param>
    /// <param name="trials">1 and above.</param>
    /// <param name="probability">Above 0 and below 1.</param>
    /// <param name="own">Share of the count's own probability that counts to each end, 0.5 to 1.</param>
    public static (double Low, double High) Limits(int passed, int trials, double probability = 0.95, double own = 0.5)
    {
        if (trials < 1 || passed < 0 || passed > trials)
            throw new ArgumentOutOfRangeException(nameof(passed), $"{passed} of {trials} cannot be");
        double tail = (1 - probability) / 2;
        // At most the count, and its own probability as stated.
        double Least(double p) => (passed == 0 ? 0 : (1 - own) * Below(passed - 1, trials, p)) + own * Below(passed, trials, p);
        double Most(double p) => 1 - own * Below(passed - 1, trials, p) - (1 - own) * Below(passed, trials, p);
        return (passed == 0 ? 0 : Solve(p => Most(p) - tail), passed == trials ? 1 : Solve(p => tail - Least(p)));
    }

    /// <summary>Standard deviation of what the share may be, by Jeffreys' rule: above 0 even where all passed or all failed.</summary>
    public static double Deviation(int passed, int trials) => new Beta(passed + 0.5, trials - passed + 0.5).StdDev;

    // Probability of at most k of n: the regularised incomplete beta function (Abramowitz and Stegun 26.5.24, from memory).
    private static double Below(int k, int n, double p) => k >= n ? 1 : SpecialFunctions.BetaRegularized(n - k, k + 1, 1 - p);

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

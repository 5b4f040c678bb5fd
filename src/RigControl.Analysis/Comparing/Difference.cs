using MathNet.Numerics.Distributions;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Comparing;

/// <summary>
/// The difference of two groups of values, by Welch's test (B. L. Welch, Biometrika 34 (1947) 28, from memory): the scatters
/// need not be alike.
/// </summary>
/// <param name="Value">Second minus first.</param>
/// <param name="StandardError">Standard uncertainty of it; not a number where no scatter is known.</param>
/// <param name="Freedom">Degrees of freedom.</param>
/// <param name="Chance">Probability of a difference at least as large where there is none; not a number where it cannot be told.</param>
public sealed record Difference(double Value, double StandardError, double Freedom, double Chance)
{
    /// <summary>The 95 % interval; null where no scatter is known.</summary>
    public (double Low, double High)? Interval95
    {
        get
        {
            double half = Coverage.Factor95(Freedom) * StandardError;
            return double.IsNaN(half) ? null : (Value - half, Value + half);
        }
    }

    /// <summary>Compares two groups.</summary>
    /// <param name="sameRig">Whether what is common to all values of a rig cancels in the difference.</param>
    /// <exception cref="ArgumentException">A group is empty.</exception>
    public static Difference Of(ValueGroup a, ValueGroup b, bool sameRig)
    {
        if (a.Count == 0 || b.Count == 0)
            throw new ArgumentException("A group without a value cannot be compared.");
        double difference = b.Mean - a.Mean;
        (double error, double freedom) = Scatters(a, b);
        double common = sameRig ? 0 : Math.Sqrt((a.Fresh ? 0 : a.Known * a.Known) + (b.Fresh ? 0 : b.Known * b.Known));
        if (common > 0 && !double.IsNaN(error))
        {
            freedom = Coverage.EffectiveFreedom([(error, freedom), (common, double.PositiveInfinity)]);
            error = Math.Sqrt(error * error + common * common);
        }

        return new Difference(difference, error, freedom, ChanceOf(difference, error, freedom));
    }

    // A single value is taken to scatter like the values of the other side; two single ones say nothing of it.
    private static (double Error, double Freedom) Scatters(ValueGroup a, ValueGroup b)
    {
        if (a.Count == 1 && b.Count == 1)
            return (double.NaN, double.NaN);
        if (a.Count == 1 || b.Count == 1)
        {
            ValueGroup many = a.Count == 1 ? b : a;
            return Floored(many.Scatter * Math.Sqrt(1 + 1.0 / many.Count), many.Count - 1, a, b);
        }

        double partA = a.Scatter * a.Scatter / a.Count, partB = b.Scatter * b.Scatter / b.Count;
        double sum = partA + partB;
        double freedom = sum * sum / (partA * partA / (a.Count - 1) + partB * partB / (b.Count - 1));
        return Floored(Math.Sqrt(sum), freedom, a, b);
    }

    // Values that agree to the last digit scatter by less than can be seen: then what each is known to is all there is.
    private static (double Error, double Freedom) Floored(double error, double freedom, ValueGroup a, ValueGroup b)
    {
        double known = Math.Sqrt(a.Known * a.Known / a.Count + b.Known * b.Known / b.Count);
        return error > 0 ? (error, freedom) : (known, double.PositiveInfinity);
    }

    private static double ChanceOf(double difference, double error, double freedom)
    {
        if (double.IsNaN(error))
            return double.NaN;
        if (error == 0)
            return difference == 0 ? 1 : 0;
        double t = Math.Abs(difference) / error;
        return 2 * (double.IsInfinity(freedom) ? Normal.CDF(0, 1, -t) : StudentT.CDF(0, 1, freedom, -t));
    }
}

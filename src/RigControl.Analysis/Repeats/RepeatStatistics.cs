using MathNet.Numerics.Distributions;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Repeats;

/// <summary>Several repeats of one figure: their mean, how far they scatter beyond what each is known to, what they share, and whether they drift.</summary>
public sealed record RepeatStatistics
{
    // A repeat this improbable among its like is worth a look.
    private const double Suspicion = 0.01;

    // Of the standard uncertainty of a step: half of the step. Repeats that scatter less stand on one and the same.
    private static readonly double HalfStep = Math.Sqrt(3);

    /// <summary>How many there are.</summary>
    public required int Count { get; init; }

    /// <summary>
    /// Mean, with a t-interval from the scatter of the repeats and, whole beside it, what they share; effective degrees of freedom by Welch
    /// and Satterthwaite (JCGM 100:2008, G.4.1; from memory).
    /// </summary>
    public required Measured Mean { get; init; }

    /// <summary>Standard deviation that a single repeat has from the next; not a number with one repeat: repeatability is unknown.</summary>
    public required double Repeatability { get; init; }

    /// <summary>Standard deviation within a repeat: what each is known to by itself, as a root of the mean square.</summary>
    public required double Within { get; init; }

    /// <summary>Standard deviation between repeats beyond <see cref="Within"/>; 0 where they scatter no more than that.</summary>
    public required double Between { get; init; }

    /// <summary>What is the same in every repeat, and as large in the mean; the largest part first.</summary>
    public required IReadOnlyList<Input> Shared { get; init; }

    /// <summary>Standard uncertainty of all that the repeats share.</summary>
    public double Common => Measured.Combine([.. Shared.Select(s => s.Uncertainty)]);

    /// <summary>Change per repeat; null below four repeats.</summary>
    public required Measured? Drift { get; init; }

    /// <summary>Whether the drift is distinct from nothing at 5 %.</summary>
    public bool Drifts => Drift is { } d && Math.Abs(d.Value) > Coverage.Factor95(d.Freedom) * d.Uncertainty;

    /// <summary>Places, from 0, of repeats that stand apart from the others; they are flagged and never dropped.</summary>
    public required IReadOnlyList<int> Suspicious { get; init; }

    /// <summary>Statistics of one figure's repeats, in order.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static RepeatStatistics Of(IReadOnlyList<Measured> repeats)
    {
        if (repeats.Count == 0)
            throw new ArgumentException("There is no repeat.", nameof(repeats));
        double[] values = [.. repeats.Select(r => r.Value)];
        double seen = Summary.Deviation(values);
        Input[] shared = SharedBy(repeats, seen);
        Input own = Own(repeats, shared);
        int n = values.Length;
        return new RepeatStatistics
        {
            // With one repeat only what it is known to is known.
            Count = n, Mean = n == 1 ? repeats[0] : MeanOf(values, seen, own, shared), Repeatability = seen, Within = own.Uncertainty,
            Between = n == 1 ? double.NaN : Math.Sqrt(Math.Max(0, seen * seen - own.Uncertainty * own.Uncertainty)), Shared = shared,
            Drift = Slope(values), Suspicious = Outliers(values),
        };
    }

    // With several repeats, their scatter holds what each has for itself and what lies between them. Repeats that agree better than each is
    // known to do so by chance.
    private static Measured MeanOf(double[] values, double seen, Input own, Input[] shared)
    {
        double root = Math.Sqrt(values.Length);
        Input chance = seen > own.Uncertainty
            ? new Input("scatter of the repeats", 0, seen / root, values.Length - 1)
            : own with { Uncertainty = own.Uncertainty / root };
        Measured mean = Measured.Of(Summary.Mean(values), [chance, .. shared]);
        // A little that is shared raises the effective freedom of two or three repeats so much that their interval would shrink: knowing
        // less never makes it narrower than the scatter alone does.
        double least = Coverage.Factor95(chance.Freedom) * chance.Uncertainty;
        return least > mean.Interval95.High - mean.Value ? mean with { Asymmetric = (mean.Value - least, mean.Value + least) } : mean;
    }

    // A part that stands in every repeat's budget and is of a kind that does not change from one to the next.
    private static Input[] SharedBy(IReadOnlyList<Measured> repeats, double seen) =>
    [
        .. repeats[0].Budget
            .Select(b => b.Name)
            .Distinct()
            .Where(name => repeats.All(r => r.Budget.Any(b => b.Name == name)))
            .Select(name => new Input(name, 0, repeats.Average(r => Part(r, name))))
            .Where(p => p.Uncertainty > 0 && (SharedPart.Is(p.Name) || SharedPart.IsStep(p.Name) && seen <= HalfStep * p.Uncertainty))
            .OrderByDescending(p => p.Uncertainty),
    ];

    private static double Part(Measured repeat, string name) => repeat.Uncertainty * Math.Sqrt(repeat.Budget.Where(b => b.Name == name).Sum(b => b.Share));

    // What is left to each repeat, pooled, with the degrees of freedom that are known of it: what is shared has all of them.
    private static Input Own(IReadOnlyList<Measured> repeats, Input[] shared)
    {
        (double Uncertainty, double Freedom)[] own = [.. repeats.Select(r =>
        {
            double whole = r.Uncertainty * r.Uncertainty;
            double left = Math.Max(0, whole - shared.Sum(s => Part(r, s.Name) * Part(r, s.Name)));
            return (Math.Sqrt(left), left > 0 ? Math.Max(1, r.Freedom * left * left / (whole * whole)) : double.PositiveInfinity);
        })];
        return new Input("each repeat", 0, Math.Sqrt(own.Average(o => o.Uncertainty * o.Uncertainty)), Coverage.EffectiveFreedom(own));
    }

    private static Measured? Slope(double[] values)
    {
        if (values.Length < 4)
            return null;
        double middle = (values.Length - 1) / 2.0;
        Fit fit = LinearFit.Solve([[.. values.Select(_ => 1.0)], [.. values.Select((_, i) => i - middle)]], values);
        return Measured.Of(fit.Parameters[1], new Input("scatter of the repeats", 0, fit.Uncertainty(1), fit.DegreesOfFreedom));
    }

    // Each against the others, by Grubbs' test (F. Grubbs, Technometrics 11 (1969) 1, from memory), two-sided.
    private static int[] Outliers(double[] values)
    {
        int n = values.Length;
        double mean = Summary.Mean(values), deviation = Summary.Deviation(values);
        if (n < 4 || !(deviation > 0))
            return [];
        double t = StudentT.InvCDF(0, 1, n - 2, 1 - Suspicion / (2 * n));
        double limit = (n - 1) / Math.Sqrt(n) * Math.Sqrt(t * t / (n - 2 + t * t));
        return [.. Enumerable.Range(0, n).Where(i => Math.Abs(values[i] - mean) > limit * deviation)];
    }
}

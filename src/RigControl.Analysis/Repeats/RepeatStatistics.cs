using MathNet.Numerics.Distributions;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Repeats;

/// <summary>Several repeats of one figure: their mean, how far they scatter beyond what each is known to, and whether they drift.</summary>
public sealed record RepeatStatistics
{
    // A repeat this improbable among its like is worth a look.
    private const double Suspicion = 0.01;

    /// <summary>Mean, with a t-interval from the scatter of the repeats and their common uncertainty.</summary>
    public required Measured Mean { get; init; }

    /// <summary>Standard deviation that a single repeat has from the next; not a number with one repeat: repeatability is unknown.</summary>
    public required double Repeatability { get; init; }

    /// <summary>Standard deviation within a repeat: what each is known to, as a root of the mean square.</summary>
    public required double Within { get; init; }

    /// <summary>Standard deviation between repeats beyond <see cref="Within"/>; 0 where they scatter no more than that.</summary>
    public required double Between { get; init; }

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
        double within = Math.Sqrt(repeats.Average(r => r.Uncertainty * r.Uncertainty));
        double seen = Summary.Deviation(values);
        int n = values.Length;
        // With one repeat only what it is known to is known; with several, their scatter holds that and the rest. Repeats that
        // agree better than each is known to do so by chance.
        Measured mean = n == 1
            ? repeats[0]
            : Measured.Of(Summary.Mean(values), seen > within
                ? new Input("scatter of the repeats", 0, seen / Math.Sqrt(n), n - 1)
                : new Input("each repeat", 0, within / Math.Sqrt(n)));
        return new RepeatStatistics
        {
            Mean = mean, Repeatability = seen, Within = within, Between = n == 1 ? double.NaN : Math.Sqrt(Math.Max(0, seen * seen - within * within)),
            Drift = Slope(values), Suspicious = Outliers(values),
        };
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

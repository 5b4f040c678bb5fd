using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using RigControl.Analysis.Figures;
using RigControl.Physics;

namespace RigControl.Analysis.Uncertainty;

/// <summary>
/// Propagation of distributions by seeded trials (JCGM 101:2008, clause 7). The same inputs give the same figure every time.
/// </summary>
public static class MonteCarlo
{
    /// <summary>Enough for an end of a 95 % interval known to about 2 % of its width.</summary>
    public const int UsualTrials = 20_000;

    private const ulong Seed = 20_080_101;

    /// <summary>Value at the inputs' values; standard deviation and the middle 95 % of the trials.</summary>
    public static Measured Of(Formula formula, IReadOnlyList<Input> inputs, double[,]? correlations = null, int trials = UsualTrials)
    {
        double[] results = Trials(formula, inputs, correlations, trials);
        Array.Sort(results);
        double mean = Fitting.Summary.Mean(results);
        double deviation = Fitting.Summary.Deviation(results);
        return new Measured(formula(Propagation.Values(inputs)), deviation)
        {
            Asymmetric = (Quantile(results, 0.025), Quantile(results, 0.975)),
            Note = double.IsFinite(mean) ? null : "some of the trials gave no number",
        };
    }

    /// <summary>The sorted values' quantile by a straight line between neighbours.</summary>
    public static double Quantile(double[] sorted, double share)
    {
        double place = share * (sorted.Length - 1);
        int below = (int)place;
        return below + 1 < sorted.Length ? sorted[below] + (place - below) * (sorted[below + 1] - sorted[below]) : sorted[^1];
    }

    private static double[] Trials(Formula formula, IReadOnlyList<Input> inputs, double[,]? correlations, int trials)
    {
        SplitMix chance = new(Seed);
        Matrix<double>? root = correlations is null ? null : Matrix<double>.Build.DenseOfArray(correlations).Cholesky().Factor;
        double[] drawn = new double[inputs.Count];
        double[] results = new double[trials];
        for (int t = 0; t < trials; t++)
        {
            for (int i = 0; i < drawn.Length; i++)
                drawn[i] = root is null ? Draw(inputs[i], ref chance) : Normal.InvCDF(0, 1, Open(ref chance));
            results[t] = formula(root is null ? Placed(inputs, drawn) : Correlated(inputs, root, drawn));
        }

        return results;
    }

    private static double[] Placed(IReadOnlyList<Input> inputs, double[] drawn)
    {
        for (int i = 0; i < drawn.Length; i++)
            drawn[i] = inputs[i].Value + inputs[i].Uncertainty * drawn[i];
        return drawn;
    }

    // Correlated inputs are taken as jointly normal.
    private static double[] Correlated(IReadOnlyList<Input> inputs, Matrix<double> root, double[] drawn) =>
        [.. inputs.Select((input, i) => input.Value + input.Uncertainty * Enumerable.Range(0, i + 1).Sum(j => root[i, j] * drawn[j]))];

    // One draw with mean 0 and, but for Student's t, standard deviation 1.
    private static double Draw(Input input, ref SplitMix chance) => input.Shape switch
    {
        Shape.Rectangular => Math.Sqrt(3) * chance.Uniform(-1, 1),
        Shape.Triangular => Math.Sqrt(1.5) * (chance.Uniform(-1, 1) + chance.Uniform(-1, 1)),
        Shape.Arcsine => Math.Sqrt(2) * Math.Sin(2 * Math.PI * chance.Uniform()),
        _ => input.Freedom < 100 ? Student(input.Freedom, ref chance) : Normal.InvCDF(0, 1, Open(ref chance)),
    };

    // Exact for every number of degrees of freedom, and a hundred times as quick as turning the distribution over: R. W. Bailey, Math. Comp. 62
    // (1994) 779 (from memory).
    private static double Student(double freedom, ref SplitMix chance) =>
        Math.Sqrt(freedom * (Math.Pow(Open(ref chance), -2 / freedom) - 1)) * Math.Cos(2 * Math.PI * chance.Uniform());

    private static double Open(ref SplitMix chance) => Math.Max(chance.Uniform(), 1e-300);
}

using RigControl.Analysis.Figures;

namespace RigControl.Analysis.Uncertainty;

/// <summary>A figure as a function of its inputs.</summary>
public delegate double Formula(ReadOnlySpan<double> inputs);

/// <summary>Several figures of the same inputs, worked out together; as many each time.</summary>
public delegate double[] Formulas(ReadOnlySpan<double> inputs);

/// <summary>
/// From the uncertainty of inputs to that of a figure: the law of propagation with correlations (JCGM 100:2008, clause 5),
/// and trials by chance where the formula bends within the uncertainty (JCGM 101:2008).
/// </summary>
public static class Propagation
{
    // Second-order terms above this share of the uncertainty make the linear law wrong by a noticeable bit.
    private const double NoticeableBend = 0.05;

    /// <summary>By the law, or by trials where the formula bends.</summary>
    /// <param name="correlations">One row and column per input, ones on the diagonal; null for independent inputs.</param>
    public static Measured Of(Formula formula, IReadOnlyList<Input> inputs, double[,]? correlations = null)
    {
        Measured law = ByLaw(formula, inputs, correlations);
        if (Bend(formula, inputs) <= NoticeableBend * law.Uncertainty)
            return law;
        Measured trials = MonteCarlo.Of(formula, inputs, correlations);
        return trials with { Budget = law.Budget };
    }

    /// <summary>By the law of propagation alone.</summary>
    public static Measured ByLaw(Formula formula, IReadOnlyList<Input> inputs, double[,]? correlations = null) =>
        EachByLaw(x => [formula(x)], inputs, correlations)[0];

    /// <summary>The same of several figures, in their order, for formulas that share most of their work.</summary>
    public static Measured[] EachByLaw(Formulas formulas, IReadOnlyList<Input> inputs, double[,]? correlations = null)
    {
        double[][] parts = Parts(formulas, inputs);
        return [.. formulas(Values(inputs)).Select((value, k) => OfParts(value, parts[k], inputs, correlations))];
    }

    private static Measured OfParts(double value, double[] parts, IReadOnlyList<Input> inputs, double[,]? correlations)
    {
        double variance = Product(parts, parts, correlations);
        return new Measured(value, Math.Sqrt(Math.Max(0, variance)))
        {
            Freedom = Coverage.EffectiveFreedom(parts.Select((p, i) => (p, inputs[i].Freedom))),
            Flat = variance > 0 ? parts.Where((_, i) => inputs[i].Shape == Shape.Rectangular).Select(p => p * p / variance).DefaultIfEmpty(0).Max() is var flat and > 0.5 and <= 1 ? flat : 0 : 0,
            Budget = Measured.Shares(parts.Select((p, i) => (inputs[i].Name, p)), parts.Sum(p => p * p)),
        };
    }

    /// <summary>Covariance of several figures of the same inputs, by the law.</summary>
    public static double[,] Covariance(IReadOnlyList<Formula> formulas, IReadOnlyList<Input> inputs, double[,]? correlations = null)
    {
        double[][] parts = [.. formulas.Select(f => Parts(x => [f(x)], inputs)[0])];
        double[,] covariance = new double[formulas.Count, formulas.Count];
        for (int i = 0; i < formulas.Count; i++)
        {
            for (int j = 0; j < formulas.Count; j++)
                covariance[i, j] = Product(parts[i], parts[j], correlations);
        }

        return covariance;
    }

    internal static double[] Values(IReadOnlyList<Input> inputs) => [.. inputs.Select(i => i.Value)];

    // Change of every figure per standard uncertainty of each input: a row for each figure.
    private static double[][] Parts(Formulas formulas, IReadOnlyList<Input> inputs)
    {
        const double share = 1e-3;
        double[] values = Values(inputs);
        double[][] changes = [.. inputs.Select((input, i) =>
        {
            double[] above = Moved(formulas, values, i, share * input.Uncertainty), below = Moved(formulas, values, i, -share * input.Uncertainty);
            return above.Select((a, k) => (a - below[k]) / (2 * share)).ToArray();
        })];
        return [.. Enumerable.Range(0, changes[0].Length).Select(k => changes.Select(c => c[k]).ToArray())];
    }

    private static double Bend(Formula formula, IReadOnlyList<Input> inputs)
    {
        double[] One(ReadOnlySpan<double> x) => [formula(x)];
        double[] values = Values(inputs);
        double middle = formula(values);
        double sum = 0;
        for (int i = 0; i < values.Length; i++)
        {
            double bend = (Moved(One, values, i, inputs[i].Uncertainty)[0] + Moved(One, values, i, -inputs[i].Uncertainty)[0] - 2 * middle) / 2;
            sum += bend * bend;
        }

        return Math.Sqrt(sum);
    }

    private static double[] Moved(Formulas formulas, double[] values, int i, double by)
    {
        double before = values[i];
        values[i] = before + by;
        double[] moved = formulas(values);
        values[i] = before;
        return moved;
    }

    private static double Product(double[] a, double[] b, double[,]? correlations)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            for (int j = 0; j < b.Length; j++)
                sum += i == j ? a[i] * b[j] : correlations is null ? 0 : a[i] * b[j] * correlations[i, j];
        }

        return sum;
    }
}

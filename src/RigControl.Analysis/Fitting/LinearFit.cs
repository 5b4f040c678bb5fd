namespace RigControl.Analysis.Fitting;

/// <summary>
/// Linear least squares: columns scaled to one length, Householder QR, then refinement of solution and residual together with
/// residuals in two doubles (Å. Björck, BIT 7 (1967) 257, from memory).
/// </summary>
public static class LinearFit
{
    private const int Refinements = 4;

    /// <summary>A variance inflated beyond this square cannot be told from a singular one in double precision.</summary>
    internal const double MaximumCondition = 1e12;

    /// <summary>y ≈ Σ parameter × column.</summary>
    /// <param name="columns">One per parameter, each as long as <paramref name="y"/>.</param>
    /// <param name="uncertainties">Of each y, above 0, of which only the ratios count; null where all are alike.</param>
    /// <exception cref="FitFailedException">Too few data, or columns that the data cannot tell apart.</exception>
    public static Fit Solve(double[][] columns, double[] y, double[]? uncertainties = null)
    {
        if (y.Length < columns.Length)
            throw new FitFailedException($"{y.Length} values cannot settle {columns.Length} parameters");
        (double[][] a, double[] b) = Weighted(columns, y, uncertainties);
        double[] lengths = Normalise(a);
        Householder qr = new([.. a.Select(c => (double[])c.Clone())]);
        double[,] inverse = qr.InverseSquare() ?? throw Degenerate();
        double condition = Math.Sqrt(Enumerable.Range(0, a.Length).Max(j => inverse[j, j]));
        if (!(condition < MaximumCondition))
            throw Degenerate();
        double[] x = new double[a.Length];
        double[] r = (double[])b.Clone();
        Refine(qr, a, b, x, r, first: true);
        for (int i = 0; i < Refinements; i++)
            Refine(qr, a, b, x, r, first: false);
        return Result(x, r, inverse, lengths, condition, uncertainties);
    }

    private static FitFailedException Degenerate() => new("the data cannot tell the parameters apart");

    private static (double[][] A, double[] B) Weighted(double[][] columns, double[] y, double[]? u) => u is null
        ? ([.. columns.Select(c => (double[])c.Clone())], y)
        : ([.. columns.Select(c => c.Select((v, i) => v / u[i]).ToArray())], [.. y.Select((v, i) => v / u[i])]);

    // Powers of two, so that scaling rounds nothing.
    private static double[] Normalise(double[][] columns)
    {
        double[] lengths = new double[columns.Length];
        for (int j = 0; j < columns.Length; j++)
        {
            double length = Math.Sqrt(columns[j].Sum(v => v * v));
            lengths[j] = length > 0 ? Math.ScaleB(1, Math.ILogB(length)) : 1;
            for (int i = 0; i < columns[j].Length; i++)
                columns[j][i] /= lengths[j];
        }

        return lengths;
    }

    // One correction of the augmented system r + A x = b, Aᵀ r = 0. The first one starts from nothing.
    private static void Refine(Householder qr, double[][] a, double[] b, double[] x, double[] r, bool first)
    {
        int n = a.Length;
        double[] f = new double[b.Length];
        for (int i = 0; i < f.Length; i++)
        {
            TwoDoubles sum = default;
            sum.Add(b[i]);
            if (!first)
                sum.Add(-r[i]);
            for (int j = 0; j < n; j++)
                sum.AddProduct(-a[j][i], x[j]);
            f[i] = sum.Value;
        }

        double[] h = first ? new double[n] : [.. a.Select(c => -Dot(c, r))];
        qr.SolveLower(h);
        qr.Turn(f);
        double[] dx = new double[n];
        for (int j = 0; j < n; j++)
        {
            dx[j] = f[j] - h[j];
            f[j] = h[j];
        }

        qr.SolveUpper(dx);
        qr.TurnBack(f);
        for (int j = 0; j < n; j++)
            x[j] += dx[j];
        for (int i = 0; i < r.Length; i++)
            r[i] = first ? f[i] : r[i] + f[i];
    }

    private static double Dot(double[] a, double[] b)
    {
        TwoDoubles sum = default;
        for (int i = 0; i < a.Length; i++)
            sum.AddProduct(a[i], b[i]);
        return sum.Value;
    }

    private static Fit Result(double[] x, double[] r, double[,] inverse, double[] lengths, double condition, double[]? u)
    {
        int n = x.Length;
        double squares = Dot(r, r);
        int freedom = r.Length - n;
        double variance = freedom > 0 ? squares / freedom : 0;
        double[,] covariance = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
                covariance[i, j] = variance * inverse[i, j] / (lengths[i] * lengths[j]);
        }

        return new Fit
        {
            Parameters = [.. x.Select((v, j) => v / lengths[j])], Covariance = covariance, Residuals = u is null ? r : [.. r.Select((v, i) => v * u[i])],
            ResidualSumOfSquares = squares, DegreesOfFreedom = freedom, Uncertainties = u, AtBound = new bool[n], Condition = condition, Iterations = 1,
        };
    }
}

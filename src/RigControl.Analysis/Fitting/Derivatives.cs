namespace RigControl.Analysis.Fitting;

/// <summary>Derivatives of a model: the caller's own, or differences of sixth order, which keep about twelve of sixteen digits.</summary>
internal sealed class Derivatives(FitProblem problem)
{
    // Truncation goes with the sixth power of the step, rounding with its inverse. Their balance for a smooth model would be
    // 6e-3; a model that swings through tens of radians wants less, and the smooth one has digits to spare.
    private const double Step = 1e-3;

    private readonly double[][] _columns = [.. problem.Start.Select(_ => new double[problem.Observed.Length])];
    private readonly double[][] _points = [.. Enumerable.Range(0, 6).Select(_ => new double[problem.Observed.Length])];

    /// <summary>One column per parameter; the caller may overwrite them until the next call.</summary>
    public double[][] At(double[] parameters)
    {
        if (problem.Slopes is { } slopes)
            slopes(parameters, _columns);
        else
            for (int j = 0; j < parameters.Length; j++)
                Difference(parameters, j);
        return [.. _columns];
    }

    private void Difference(double[] parameters, int j)
    {
        double at = parameters[j];
        double size = problem.Scale?[j] ?? (problem.Start[j] != 0 ? Math.Abs(problem.Start[j]) * 1e-3 : 1e-3);
        double h = Step * Math.Max(Math.Abs(at), size);
        (double[] weights, int[] places) = Stencil(at, h, j);
        double[] moved = [.. parameters];
        for (int k = 0; k < places.Length; k++)
        {
            moved[j] = at + places[k] * h;
            problem.Model(moved, _points[k]);
        }

        double[] column = _columns[j];
        for (int i = 0; i < column.Length; i++)
        {
            double sum = 0;
            for (int k = 0; k < places.Length; k++)
                sum += weights[k] * _points[k][i];
            column[i] = sum / h;
        }
    }

    // Around the point where there is room; to one side at a bound, since a model may have no value beyond it.
    private (double[] Weights, int[] Places) Stencil(double at, double h, int j)
    {
        bool low = at - 3 * h < (problem.Lower?[j] ?? double.NegativeInfinity);
        bool high = at + 3 * h > (problem.Upper?[j] ?? double.PositiveInfinity);
        return (low, high) switch
        {
            (true, false) => ([-11.0 / 6, 3, -1.5, 1.0 / 3], [0, 1, 2, 3]),
            (false, true) => ([11.0 / 6, -3, 1.5, -1.0 / 3], [0, -1, -2, -3]),
            _ => ([-1.0 / 60, 3.0 / 20, -0.75, 0.75, -3.0 / 20, 1.0 / 60], [-3, -2, -1, 1, 2, 3]),
        };
    }
}

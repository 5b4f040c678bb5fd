namespace RigControl.Analysis.Fitting;

/// <summary>Where a nonlinear fit stands: parameters, residuals, and the model made linear around them.</summary>
internal sealed class FitState
{
    private readonly FitProblem _problem;
    private readonly Derivatives _derivatives;
    private readonly int _rows;
    private readonly double[] _scale;
    private double[] _parameters, _trial;
    private double[] _residuals, _trialResiduals;
    private double _trialSquares;
    private int[] _free = [];
    private Householder _qr = null!;
    private readonly double[] _turned;

    public FitState(FitProblem problem)
    {
        _problem = problem;
        _rows = problem.Observed.Length;
        _parameters = [.. problem.Start.Select((p, j) => Clamp(p, j))];
        _trial = new double[_parameters.Length];
        _scale = new double[_parameters.Length];
        _residuals = new double[_rows];
        _trialResiduals = new double[_rows];
        _turned = new double[_rows];
        if (_rows < _parameters.Length)
            throw new FitFailedException($"{_rows} values cannot settle {_parameters.Length} parameters");
        _derivatives = new Derivatives(problem);
        Squares = Evaluate(_parameters, _residuals);
        if (!double.IsFinite(Squares))
            throw new FitFailedException("the model gives no number where the fit begins");
        Negligible = _rows * Math.Pow(1e-16 * problem.Observed.Select((y, i) => Math.Abs(Weight(i) * y)).Max(), 2);
    }

    public double Squares { get; private set; }

    /// <summary>A sum of squares that is nothing but rounding of the observations.</summary>
    public double Negligible { get; }

    public void Linearise()
    {
        double[][] columns = _derivatives.At(_parameters);
        _free = [.. Enumerable.Range(0, columns.Length).Where(j => !Held(j, columns[j]))];
        double[][] free = [.. _free.Select(j => columns[j])];
        for (int k = 0; k < free.Length; k++)
        {
            Weigh(free[k]);
            double norm = Householder.Norm(free[k]);
            if (!double.IsFinite(norm))
                throw new FitFailedException($"the model's slope with {_problem.Name(_free[k])} is not a number");
            _scale[_free[k]] = Math.Max(_scale[_free[k]], norm);
        }

        _qr = new Householder(free);
        _residuals.CopyTo(_turned, 0);
        _qr.Turn(_turned);
    }

    /// <summary>The damped step of the free parameters, in the order of <c>_free</c>.</summary>
    public double[] Step(double damping)
    {
        int n = _free.Length;
        double[][] columns = new double[n][];
        double[] right = new double[2 * n];
        for (int j = 0; j < n; j++)
        {
            columns[j] = new double[2 * n];
            for (int i = 0; i <= j; i++)
                columns[j][i] = _qr.R(i, j);
            columns[j][n + j] = Math.Sqrt(damping) * Scale(_free[j]);
            right[j] = _turned[j];
        }

        Householder damped = new(columns);
        damped.Turn(right);
        damped.SolveUpper(right);
        return Bounded(right[..n]);
    }

    /// <summary>The undamped step; null where the parameters cannot be told apart.</summary>
    public double[]? FullStep()
    {
        double[] step = _turned[..Math.Min(_turned.Length, _free.Length)];
        return _qr.SolveUpper(step) ? Bounded(step) : null;
    }

    /// <summary>By how much a step lowers the sum of squares if the model were linear.</summary>
    public double Foreseen(double[] step)
    {
        double before = 0, after = 0;
        for (int i = 0; i < _free.Length; i++)
        {
            double left = _turned[i];
            for (int j = i; j < _free.Length; j++)
                left -= _qr.R(i, j) * step[j];
            before += _turned[i] * _turned[i];
            after += left * left;
        }

        return before - after;
    }

    /// <summary>Largest change beside the size of its parameter.</summary>
    public double Size(double[] step)
    {
        double largest = 0;
        for (int j = 0; j < _free.Length; j++)
            largest = Math.Max(largest, Math.Abs(step[j]) / Math.Max(Math.Abs(_parameters[_free[j]]), double.Epsilon * 1e10));
        return largest;
    }

    /// <summary>Sum of squares after a step, which is kept for <see cref="Accept"/>.</summary>
    public double? Try(double[] step)
    {
        _parameters.CopyTo(_trial, 0);
        for (int j = 0; j < _free.Length; j++)
            _trial[_free[j]] += step[j];
        return _trialSquares = Evaluate(_trial, _trialResiduals);
    }

    public void Accept()
    {
        (_parameters, _trial) = (_trial, _parameters);
        (_residuals, _trialResiduals) = (_trialResiduals, _residuals);
        Squares = _trialSquares;
    }

    public Fit Result(int iterations)
    {
        int n = _parameters.Length;
        double[,] inverse = _qr.InverseSquare() ?? throw Degenerate(0);
        double condition = 1;
        for (int j = 0; j < _free.Length; j++)
        {
            double length = Math.Sqrt(Enumerable.Range(0, j + 1).Sum(i => _qr.R(i, j) * _qr.R(i, j)));
            double inflation = Math.Sqrt(inverse[j, j]) * length;
            if (!(inflation < LinearFit.MaximumCondition))
                throw Degenerate(j);
            condition = Math.Max(condition, inflation);
        }

        double freedom = _rows - _free.Length;
        double variance = _problem.UncertaintiesKnown ? 1 : freedom > 0 ? Squares / freedom : 0;
        double[,] covariance = new double[n, n];
        for (int i = 0; i < _free.Length; i++)
        {
            for (int j = 0; j < _free.Length; j++)
                covariance[_free[i], _free[j]] = variance * inverse[i, j];
        }

        return new Fit
        {
            Parameters = _parameters, Covariance = covariance, Residuals = [.. _residuals.Select((r, i) => r / Weight(i))], ResidualSumOfSquares = Squares,
            Uncertainties = _problem.Uncertainties, DegreesOfFreedom = freedom, AtBound = [.. Enumerable.Range(0, n).Select(j => !_free.Contains(j))], Condition = condition, Iterations = iterations,
        };
    }

    private FitFailedException Degenerate(int j) => new($"the data cannot tell {_problem.Name(_free.Length > j ? _free[j] : j)} apart from the others");

    private void Weigh(double[] column)
    {
        if (_problem.Uncertainties is null)
            return;
        for (int i = 0; i < _rows; i++)
            column[i] *= Weight(i);
    }

    private double Weight(int i) => _problem.Uncertainties is { } u ? 1 / u[i] : 1;

    private double Scale(int j) => _scale[j] > 0 ? _scale[j] : 1;

    private double Clamp(double value, int j) => Math.Min(Math.Max(value, _problem.Lower?[j] ?? double.MinValue), _problem.Upper?[j] ?? double.MaxValue);

    // At its bound, and the sum of squares would fall further out.
    private bool Held(int j, double[] column)
    {
        bool low = _parameters[j] <= (_problem.Lower?[j] ?? double.NegativeInfinity);
        bool high = _parameters[j] >= (_problem.Upper?[j] ?? double.PositiveInfinity);
        if (!low && !high)
            return false;
        double pull = 0;
        for (int i = 0; i < _rows; i++)
            pull += column[i] * Weight(i) * _residuals[i];
        return low ? pull <= 0 : pull >= 0;
    }

    private double[] Bounded(double[] step)
    {
        for (int j = 0; j < step.Length; j++)
            step[j] = Clamp(_parameters[_free[j]] + step[j], _free[j]) - _parameters[_free[j]];
        return step;
    }

    private double Evaluate(double[] parameters, double[] residuals)
    {
        _problem.Model(parameters, residuals);
        TwoDoubles sum = default;
        for (int i = 0; i < _rows; i++)
        {
            residuals[i] = Weight(i) * (_problem.Observed[i] - residuals[i]);
            sum.AddProduct(residuals[i], residuals[i]);
        }

        return sum.Value;
    }
}

namespace RigControl.Analysis.Fitting;

/// <summary>What a fit has found.</summary>
public sealed record Fit
{
    internal const int Stretches = 16;
    private const int ShortestStretch = 3;

    // Few stretches tell a variance badly, and what the law leaves out shows in none: no curve is believed more than this allows.
    internal const double LeastLength = 0.25;

    /// <summary>In the order of the problem's start.</summary>
    public required double[] Parameters { get; init; }

    /// <summary>Covariance of the parameters; zero for one that a bound holds.</summary>
    public required double[,] Covariance { get; init; }

    /// <summary>Observed less predicted, in the unit of the observations.</summary>
    public required double[] Residuals { get; init; }

    /// <summary>Standard uncertainty of each observation as the problem gave it; null where all were alike.</summary>
    public double[]? Uncertainties { get; init; }

    /// <summary>Sum of the squared residuals, each over its uncertainty where those were given.</summary>
    public required double ResidualSumOfSquares { get; init; }

    /// <summary>Observations less free parameters.</summary>
    public required double DegreesOfFreedom { get; init; }

    /// <summary>Whether a bound holds the parameter.</summary>
    public required bool[] AtBound { get; init; }

    /// <summary>How much the worst parameter's variance is inflated by its likeness to the others, as a root; 1 is independent.</summary>
    public required double Condition { get; init; }

    public required int Iterations { get; init; }

    /// <summary>Root of the sum of squares over the degrees of freedom: residual standard deviation, or root of reduced chi-square.</summary>
    public double ResidualDeviation => DegreesOfFreedom > 0 ? Math.Sqrt(ResidualSumOfSquares / DegreesOfFreedom) : 0;

    /// <summary>Standard uncertainty of a parameter.</summary>
    public double Uncertainty(int parameter) => Math.Sqrt(Covariance[parameter, parameter]);

    /// <summary>Correlation of two parameters, -1 to 1; 0 where one is held.</summary>
    public double Correlation(int a, int b)
    {
        double product = Uncertainty(a) * Uncertainty(b);
        return product > 0 ? Covariance[a, b] / product : 0;
    }

    /// <summary>
    /// The same fit believed less, because neighbouring residuals hang together: covariance times the integrated
    /// autocorrelation of the residuals, degrees of freedom over it. Never believed more.
    /// </summary>
    public Fit WithSerialCorrelation()
    {
        double length = Summary.CorrelationLength(Residuals);
        return Scaled(length) with { DegreesOfFreedom = Math.Max(1, (DegreesOfFreedom + Parameters.Length) / length - Parameters.Length) };
    }

    /// <summary>
    /// The same where what one observation gains its neighbour loses, as turns do that share a mark: means of many scatter less than their
    /// number tells. The scatter of long stretches, which is what smooth parameters see, then stands for that of single observations, with
    /// the few degrees of freedom that so many stretches have (batch means; D. Brillinger, Time Series, 1975, from memory). Observations
    /// that hang together are treated as in <see cref="WithSerialCorrelation"/>.
    /// </summary>
    /// <param name="least">Smallest share of the variance that the stretches may leave; 0 for a mean, which needs no law.</param>
    public Fit WithNeighboursThatMakeUp(double least = LeastLength)
    {
        int size = Residuals.Length / Stretches;
        double length = size < ShortestStretch ? 1 : Spread(size) / (ResidualSumOfSquares / DegreesOfFreedom);
        return length < 1 && Summary.CorrelationLength(Residuals) == 1
            ? Scaled(Math.Max(length, least)) with { DegreesOfFreedom = Stretches - Parameters.Length }
            : WithSerialCorrelation();
    }

    /// <summary>Variance of single observations as the means of long stretches tell it, as a share of the one that they themselves tell; 1 where there are too few.</summary>
    public double ShareOfLongScatter(int stretches)
    {
        int size = Residuals.Length / stretches;
        return size < ShortestStretch || Summary.CorrelationLength(Residuals) > 1 ? 1 : Spread(size, stretches) / (ResidualSumOfSquares / DegreesOfFreedom);
    }

    // Variance of single observations as the means of stretches tell it.
    private double Spread(int size, int stretches = Stretches)
    {
        double squares = 0;
        for (int s = 0; s < stretches; s++)
        {
            double sum = 0;
            for (int i = s * size; i < (s + 1) * size; i++)
                sum += Residuals[i] / (Uncertainties?[i] ?? 1);
            squares += sum * sum / size;
        }

        return squares / (stretches - Parameters.Length);
    }

    private Fit Scaled(double factor)
    {
        double[,] scaled = (double[,])Covariance.Clone();
        for (int i = 0; i < Parameters.Length; i++)
        {
            for (int j = 0; j < Parameters.Length; j++)
                scaled[i, j] *= factor;
        }

        return this with { Covariance = scaled };
    }
}

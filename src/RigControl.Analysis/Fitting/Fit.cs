namespace RigControl.Analysis.Fitting;

/// <summary>What a fit has found.</summary>
public sealed record Fit
{
    /// <summary>In the order of the problem's start.</summary>
    public required double[] Parameters { get; init; }

    /// <summary>Covariance of the parameters; zero for one that a bound holds.</summary>
    public required double[,] Covariance { get; init; }

    /// <summary>Observed less predicted, in the unit of the observations.</summary>
    public required double[] Residuals { get; init; }

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
        double[,] wider = (double[,])Covariance.Clone();
        for (int i = 0; i < Parameters.Length; i++)
        {
            for (int j = 0; j < Parameters.Length; j++)
                wider[i, j] *= length;
        }

        return this with { Covariance = wider, DegreesOfFreedom = Math.Max(1, (DegreesOfFreedom + Parameters.Length) / length - Parameters.Length) };
    }
}

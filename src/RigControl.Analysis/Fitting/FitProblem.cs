namespace RigControl.Analysis.Fitting;

/// <summary>Writes what the model predicts for every observation.</summary>
public delegate void Model(ReadOnlySpan<double> parameters, Span<double> predicted);

/// <summary>Writes the derivatives of every prediction, one column per parameter.</summary>
public delegate void Slopes(ReadOnlySpan<double> parameters, double[][] columns);

/// <summary>Observations, a model for them, and where to begin. Units are the caller's own.</summary>
public sealed record FitProblem
{
    /// <summary>What was seen; finite, at least as many as parameters.</summary>
    public required double[] Observed { get; init; }

    public required Model Model { get; init; }

    /// <summary>Where to begin, one per parameter.</summary>
    public required double[] Start { get; init; }

    /// <summary>Derivatives of the model; null takes them numerically, to about twelve digits.</summary>
    public Slopes? Slopes { get; init; }

    /// <summary>Standard uncertainty of each observation, above 0; null where all are alike and unknown.</summary>
    public double[]? Uncertainties { get; init; }

    /// <summary>True: the uncertainties are trusted as they are. False: only their ratios, and the scatter around the fit gives the rest.</summary>
    public bool UncertaintiesKnown { get; init; }

    /// <summary>Lowest value of each parameter; null for none.</summary>
    public double[]? Lower { get; init; }

    /// <summary>Highest value of each parameter; null for none.</summary>
    public double[]? Upper { get; init; }

    /// <summary>How large each parameter typically is, above 0; only for numeric derivatives near 0. Null takes the size of the start.</summary>
    public double[]? Scale { get; init; }

    /// <summary>What the parameters are called in a reason for failure; null numbers them.</summary>
    public string[]? Names { get; init; }

    /// <summary>Most iterations, 1 and above.</summary>
    public int MaximumIterations { get; init; } = 1000;

    internal string Name(int parameter) => Names?[parameter] ?? $"parameter {parameter + 1}";
}

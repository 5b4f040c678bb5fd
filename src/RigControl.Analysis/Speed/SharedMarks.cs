using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;

namespace RigControl.Analysis.Speed;

/// <summary>
/// How well a weighted sum of speed readings is known. What a mark seen late adds to one turn it takes from the next: readings of turns that
/// follow each other are differences of marks, and smooth weights let most of that cancel. By the law of propagation with correlations
/// (JCGM 100:2008, 5.2; derived for this).
/// </summary>
internal static class SharedMarks
{
    /// <summary>
    /// Standard uncertainty of a formula of a fit's parameters, with its degrees of freedom. Readings that hang together count as so many fewer.
    /// </summary>
    /// <param name="part">The readings that were fitted, all weighted alike.</param>
    /// <param name="slopes">Of the formula with each parameter.</param>
    /// <param name="columns">Of the model with each parameter, a value per reading.</param>
    public static (double Uncertainty, double Freedom) Of(SpeedSignal part, Fit fit, ReadOnlySpan<double> slopes, double[][] columns)
    {
        double scatter = fit.ResidualDeviation;
        double[] weights = Weights(fit, slopes, columns, scatter);
        double plain = scatter * scatter * weights.Sum(w => w * w);
        double longer = Summary.CorrelationLength(fit.Residuals);
        if (longer > 1 || !(scatter > 0))
            return (Math.Sqrt(plain * longer), Math.Max(1, (fit.DegreesOfFreedom + columns.Length) / longer - columns.Length));
        double rounding = Measured.OfResolution(part.Resolution), rounded = Math.Min(1, rounding * rounding / (scatter * scatter));
        double alone = part.Lone + (1 - part.Lone) * rounded;
        return (Math.Sqrt(Math.Max(Fit.LeastLength * plain, alone * plain + (1 - alone) * scatter * scatter * Changes(weights) / 2)), fit.DegreesOfFreedom);
    }

    // Of every reading in the formula's value.
    private static double[] Weights(Fit fit, ReadOnlySpan<double> slopes, double[][] columns, double scatter)
    {
        int count = columns.Length;
        double[] weights = new double[columns[0].Length];
        for (int k = 0; k < count; k++)
        {
            double factor = 0;
            for (int j = 0; j < count; j++)
                factor += slopes[j] * fit.Covariance[j, k];
            for (int i = 0; i < weights.Length && scatter > 0; i++)
                weights[i] += factor / (scatter * scatter) * columns[k][i];
        }

        return weights;
    }

    // Sum of squares of the changes from each weight to the next, from nothing before the first and to nothing after the last.
    private static double Changes(double[] weights)
    {
        double sum = 0, before = 0;
        foreach (double weight in weights)
        {
            sum += (weight - before) * (weight - before);
            before = weight;
        }

        return sum + before * before;
    }
}

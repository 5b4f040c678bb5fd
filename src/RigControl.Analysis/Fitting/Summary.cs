namespace RigControl.Analysis.Fitting;

/// <summary>Mean, scatter and serial correlation of a list of numbers, without losing digits to a large offset.</summary>
public static class Summary
{
    /// <summary>Mean; not a number for an empty list.</summary>
    public static double Mean(ReadOnlySpan<double> values)
    {
        TwoDoubles sum = default;
        foreach (double value in values)
            sum.Add(value);
        return sum.Value / values.Length;
    }

    /// <summary>Standard deviation with n - 1; not a number below two values.</summary>
    public static double Deviation(ReadOnlySpan<double> values)
    {
        if (values.Length < 2)
            return double.NaN;
        double mean = Mean(values);
        return Math.Sqrt(Lagged(values, mean, 0) / (values.Length - 1));
    }

    /// <summary>Autocorrelation at a lag: covariance of neighbours over that of the whole, both around the same mean.</summary>
    public static double Autocorrelation(ReadOnlySpan<double> values, int lag)
    {
        double mean = Mean(values);
        double whole = Lagged(values, mean, 0);
        return whole > 0 ? Lagged(values, mean, lag) / whole : 0;
    }

    /// <summary>
    /// How many neighbouring values count as one independent value: 1 + 2 Σ autocorrelation, summed until the lag is five times
    /// the sum (window of Madras and Sokal, J. Stat. Phys. 50 (1988) 109, from memory); at least 1, at most a tenth of the values.
    /// </summary>
    public static double CorrelationLength(ReadOnlySpan<double> values)
    {
        if (values.Length < 8)
            return 1;
        double mean = Mean(values);
        double whole = Lagged(values, mean, 0);
        double length = 1;
        for (int lag = 1; lag < values.Length / 4 && lag < 5 * length && whole > 0; lag++)
            length += 2 * Lagged(values, mean, lag) / whole;
        return Math.Clamp(length, 1, Math.Max(1, values.Length / 10.0));
    }

    /// <summary>Median; not a number for an empty list.</summary>
    public static double Median(ReadOnlySpan<double> values)
    {
        if (values.Length == 0)
            return double.NaN;
        double[] sorted = values.ToArray();
        Array.Sort(sorted);
        int middle = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[middle] : 0.5 * (sorted[middle - 1] + sorted[middle]);
    }

    private static double Lagged(ReadOnlySpan<double> values, double mean, int lag)
    {
        TwoDoubles sum = default;
        for (int i = lag; i < values.Length; i++)
            sum.AddProduct(values[i] - mean, values[i - lag] - mean);
        return sum.Value;
    }
}

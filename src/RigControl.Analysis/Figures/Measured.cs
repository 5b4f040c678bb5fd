namespace RigControl.Analysis.Figures;

/// <summary>A value with its standard uncertainty, both in the same unit.</summary>
public readonly record struct Measured(double Value, double Uncertainty)
{
    /// <summary>Standard uncertainty of a reading known only to a step: the step over the root of 12 (JCGM 100:2008, F.2.2.1; from memory).</summary>
    public static double OfResolution(double step) => step / Math.Sqrt(12);

    /// <summary>Root of the sum of squares of independent parts.</summary>
    public static double Combine(params ReadOnlySpan<double> parts)
    {
        double sum = 0;
        foreach (double part in parts)
            sum += part * part;
        return Math.Sqrt(sum);
    }
}

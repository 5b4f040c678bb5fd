using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>The highest speed behind readings that scatter.</summary>
internal static class HighestSpeed
{
    // Readings in one mean: enough to quiet the scatter, few enough not to flatten a peak.
    private const int Window = 15;

    public static Measured Of(SpeedSignal signal)
    {
        double noise = signal.Noise;
        double highest = signal.Values.Max();
        if (noise <= 0.75 * signal.Resolution || signal.Count < 2 * Window)
            return Measured.Of(highest, new Input("resolution", 0, Measured.OfResolution(signal.Resolution)), new Input("scatter of the readings", 0, noise));
        double[] means = Means(signal.Values);
        double top = means.Max();
        double spread = noise / Math.Sqrt(Window);
        // Among many means that are as high but for chance, the highest stands above the truth by about this much.
        double rivals = Math.Max(1, means.Count(m => m > top - 4 * spread) / (double)Window);
        double excess = spread * ExpectedMaximum(rivals);
        return Measured.Of(top - excess, new Input("scatter of the readings", 0, spread), new Input("resolution", 0, Measured.OfResolution(signal.Resolution) / Math.Sqrt(Window)));
    }

    private static double[] Means(double[] values)
    {
        double[] means = new double[values.Length - Window + 1];
        double sum = 0;
        for (int i = 0; i < values.Length; i++)
        {
            sum += values[i] - (i >= Window ? values[i - Window] : 0);
            if (i >= Window - 1)
                means[i - Window + 1] = sum / Window;
        }

        return means;
    }

    // Mean of the largest of n normal values, by Blom's approximation (G. Blom, Statistical Estimates and Transformed
    // Beta-Variables, Wiley 1958, from memory).
    private static double ExpectedMaximum(double n) => n <= 1 ? 0 : MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (n - 0.375) / (n + 0.25));
}

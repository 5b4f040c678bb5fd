using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>Level and drift of a part of a trace that should stand still.</summary>
/// <param name="Level">Mean, in the unit of the values.</param>
/// <param name="Drift">Change per second.</param>
internal sealed record Settled(Measured Level, Measured Drift)
{
    // Few enough that what hangs together between neighbours, to either side, is gone between blocks.
    private const int MostBlocks = 50;

    /// <summary>A straight line through the values; its middle is the mean. A drift is not taken for scatter.</summary>
    /// <param name="resolution">Step of the values; readings that show nothing else hide at least that much.</param>
    /// <param name="turns">Whether the values are of turns, of which neighbours share a mark.</param>
    public static Settled Of(double[] times, double[] values, double resolution, bool turns = false)
    {
        int size = Math.Max(1, (times.Length + MostBlocks - 1) / MostBlocks);
        int count = times.Length / size;
        double[] t = Means(times, size, count), v = Means(values, size, count);
        double middle = t.Average();
        Fit line = LinearFit.Solve([[.. t.Select(_ => 1.0)], [.. t.Select(x => x - middle)]], v);
        Fit fit = turns ? line.WithNeighboursThatMakeUp(least: 0) : line.WithSerialCorrelation();
        // Scatter above a step averages the steps out; readings without scatter stand anywhere within one. It is that of single readings:
        // means of turns that share marks scatter less than their number tells.
        double hidden = Scatter(times, values, middle, line.Parameters) < resolution ? Measured.OfResolution(resolution) : 0;
        Measured level = Measured.Of(fit.Parameters[0], new Input("scatter of the readings", 0, fit.Uncertainty(0), fit.DegreesOfFreedom), new Input("resolution", 0, hidden));
        Measured drift = Measured.Of(fit.Parameters[1], new Input("scatter of the readings", 0, fit.Uncertainty(1), fit.DegreesOfFreedom));
        return new Settled(level, drift);
    }

    /// <summary>Whether the drift is distinct from nothing.</summary>
    public bool Drifts => Math.Abs(Drift.Value) > Coverage.Factor95(Drift.Freedom) * Drift.Uncertainty;

    // Root mean square of what single values are off the line.
    private static double Scatter(double[] times, double[] values, double middle, double[] line)
    {
        double squares = 0;
        for (int i = 0; i < values.Length; i++)
        {
            double off = values[i] - line[0] - line[1] * (times[i] - middle);
            squares += off * off;
        }

        return Math.Sqrt(squares / Math.Max(1, values.Length - 2));
    }

    private static double[] Means(double[] values, int size, int count)
    {
        double[] means = new double[count];
        for (int b = 0; b < count; b++)
            means[b] = Summary.Mean(values.AsSpan(b * size, size));
        return means;
    }
}

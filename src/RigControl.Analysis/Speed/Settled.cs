using MathNet.Numerics.Distributions;
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

    // A scatter that shows larger than this much of chance allows is more than chance.
    private const double Chance = 0.99;

    // Means that share their ends make up for half of each other, and their sum of squares scatters as that of fewer: 1 + 2 (1/2)^2.
    private const double SharedEnds = 1.5;

    // Rows of ten turns and more: where marks are skipped, the moments of the readings tell only roughly which turns follow each other.
    private const double InRows = 0.1;

    /// <summary>
    /// A slightly bent line through the values; its mean is theirs. Neither a drift nor one that fades, as of a winding that warms, is taken for
    /// scatter.
    /// </summary>
    /// <param name="resolution">Step of the values; readings that show nothing else hide at least that much.</param>
    public static Settled Of(double[] times, double[] values, double resolution) => Of(times, values, resolution, f => f.WithSerialCorrelation(), lone: 1);

    /// <summary>The same of turns, of which neighbours mostly share a mark.</summary>
    public static Settled OfTurns(SpeedSignal turns) => Of(turns.Times, turns.Values, turns.Resolution, f => f.WithNeighboursThatMakeUp(least: 0), turns.Lone);

    private static Settled Of(double[] times, double[] values, double resolution, Func<Fit, Fit> believed, double lone)
    {
        int size = Math.Max(1, (times.Length + MostBlocks - 1) / MostBlocks);
        int count = times.Length / size;
        double[] t = Means(times, size, count), v = Means(values, size, count);
        double middle = t.Average();
        double square = t.Average(x => (x - middle) * (x - middle));
        double Bend(double x) => (x - middle) * (x - middle) - square;
        Fit fit = believed(LinearFit.Solve([[.. t.Select(_ => 1.0)], [.. t.Select(x => x - middle)], [.. t.Select(Bend)]], v));
        // Scatter above a step averages the steps out; readings without scatter stand anywhere within one. It is that of single readings:
        // means of turns that share marks scatter less than their number tells.
        double scatter = Scatter(times, values, x => fit.Parameters[0] + fit.Parameters[1] * (x - middle) + fit.Parameters[2] * Bend(x), fit.Parameters.Length);
        double hidden = scatter < resolution ? Measured.OfResolution(resolution) : 0;
        (double known, double freedom) = OfMarks(fit, scatter, Measured.OfResolution(resolution), values.Length, lone);
        // A turn read too short is faster by more than one read too long is slower: turns over time lie below the mean of single speeds.
        double mean = fit.Parameters[0] - (lone < 1 ? scatter * scatter / fit.Parameters[0] : 0);
        Measured level = Measured.Of(mean, new Input("scatter of the readings", 0, known, freedom), new Input("resolution", 0, hidden));
        Measured drift = Measured.Of(fit.Parameters[1], new Input("scatter of the readings", 0, fit.Uncertainty(1), fit.DegreesOfFreedom));
        return new Settled(level, drift);
    }

    // What a mark seen late adds to one turn it takes from the next: of turns in a row only the first and the last mark are left in the sum, and
    // what each reading is rounded by. The means of stretches would count the marks at the stretches' own ends as well. They decide all the
    // same where they scatter more than marks alone can make them.
    private static (double Uncertainty, double Freedom) OfMarks(Fit fit, double scatter, double rounding, int count, double lone)
    {
        double rounded = Math.Min(1, rounding * rounding / Math.Max(scatter * scatter, double.Epsilon));
        double share = lone + (1 - lone) * rounded;
        // As many means as the fit stands on, each with two ends. What ends scatter is quick, and a smooth curve takes none of it away.
        double means = fit.DegreesOfFreedom + fit.Parameters.Length, ends = means / fit.DegreesOfFreedom * means * (1 - rounded) / count;
        double alone = scatter / Math.Sqrt(count), seen = fit.Uncertainty(0);
        double freedom = fit.DegreesOfFreedom / SharedEnds, byChance = Math.Sqrt(ChiSquared.InvCDF(freedom, Chance) / freedom);
        return lone < InRows && seen < byChance * alone * Math.Sqrt(share + ends) && alone * Math.Sqrt(share) < seen
            ? (alone * Math.Sqrt(share), count - fit.Parameters.Length)
            : (seen, fit.DegreesOfFreedom);
    }

    /// <summary>Whether the drift is distinct from nothing.</summary>
    public bool Drifts => Math.Abs(Drift.Value) > Coverage.Factor95(Drift.Freedom) * Drift.Uncertainty;

    // Root mean square of what single values are off the curve.
    private static double Scatter(double[] times, double[] values, Func<double, double> curve, int parameters)
    {
        double squares = 0;
        for (int i = 0; i < values.Length; i++)
        {
            double off = values[i] - curve(times[i]);
            squares += off * off;
        }

        return Math.Sqrt(squares / Math.Max(1, values.Length - parameters));
    }

    private static double[] Means(double[] values, int size, int count)
    {
        double[] means = new double[count];
        for (int b = 0; b < count; b++)
            means[b] = Summary.Mean(values.AsSpan(b * size, size));
        return means;
    }
}

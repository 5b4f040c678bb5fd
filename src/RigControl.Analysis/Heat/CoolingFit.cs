using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Heat;

/// <summary>
/// A part left to cool, or to settle: one lump, or two in a row where the data show the second. Temperature = final + Σ part ×
/// exp(−t / time constant).
/// </summary>
public sealed record CoolingFit
{
    /// <summary>Temperature at the end of time, in the unit of the values.</summary>
    public required Measured Final { get; init; }

    /// <summary>Of the slow lump, s.</summary>
    public required Measured TimeConstant { get; init; }

    /// <summary>Of the quick lump, s; null where one lump explains the data.</summary>
    public required Measured? Quick { get; init; }

    /// <summary>Above <see cref="Final"/> at the first sample, slow lump.</summary>
    public required double Amplitude { get; init; }

    public required Fit Fit { get; init; }

    // Of the slow time constant: above it both lumps together say nothing of either.
    private const double Unknown = 0.3;

    private static readonly string[] Names = ["first amplitude", "time constant", "final temperature", "quick amplitude", "quick time constant"];

    /// <summary>Fits temperatures over time.</summary>
    /// <param name="ambient">Final temperature where it is known; null fits it, too.</param>
    /// <exception cref="NoFigureException">Too few samples, or hardly any change.</exception>
    /// <exception cref="FitFailedException">The samples follow no such law.</exception>
    public static CoolingFit Of(double[] times, double[] values, double resolution, Input? ambient = null)
    {
        if (times.Length < 8)
            throw new NoFigureException("too few temperature samples");
        double change = Math.Abs(values[^1] - values[0]);
        if (!(change > 5 * Math.Max(resolution, 1e-9)))
            throw new NoFigureException("the temperature hardly changed");
        double span = times[^1] - times[0];
        double end = ambient?.Value ?? values[^1] - 0.2 * (values[0] - values[^1]);
        double[] start = [values[0] - end, span / 2, end, 0.2 * (values[0] - end), span / 20];
        Fit one = Solve(times, values, start, ambient, 3);
        Fit best = one;
        double leftOut = 0;
        try
        {
            Fit two = Solve(times, values, [one.Parameters[0], one.Parameters[1], ambient?.Value ?? one.Parameters[2], start[3], one.Parameters[1] / 8], ambient, 5);
            int first = ambient is null ? 3 : 2;
            best = Distinct(one, two, resolution, first) ? two : one;
            if (best == one && IsKnown(two, first, span))
                leftOut = Math.Abs(two.Parameters[1] - one.Parameters[1]);
        }
        catch (FitFailedException)
        {
            // The second lump cannot be told from the first: one it is.
        }

        return Result(best.WithSerialCorrelation(), leftOut, ambient);
    }

    /// <summary>Time from the first sample until a temperature is passed, s; infinity where it never is. One lump only.</summary>
    public double TimeTo(double temperature)
    {
        double share = (temperature - Final.Value) / Amplitude;
        return share > 0 && share <= 1 ? -TimeConstant.Value * Math.Log(share) : share > 1 ? 0 : double.PositiveInfinity;
    }

    private static CoolingFit Result(Fit fit, double leftOut, Input? ambient)
    {
        Measured Parameter(int k) => Measured.Of(fit.Parameters[k], new Input("scatter of the temperatures", 0, fit.Uncertainty(k), fit.DegreesOfFreedom));
        int quick = ambient is null ? 4 : 3;
        bool two = fit.Parameters.Length > quick;
        Measured slow = Parameter(1);
        if (leftOut > 0)
            slow = Measured.Of(slow.Value, slow.As("scatter of the temperatures"), new Input(SharedPart.SecondLump, 0, leftOut));
        // A wrong ambient stretches the curve: its uncertainty comes in by as much as the final temperature would move the time constant.
        if (ambient is { Uncertainty: > 0 })
            slow = Measured.Of(slow.Value, slow.As("the fit"), new Input("ambient", 0, slow.Value * ambient.Uncertainty / Math.Abs(fit.Parameters[0])));
        return new CoolingFit
        {
            TimeConstant = slow, Amplitude = fit.Parameters[0], Fit = fit, Quick = two ? Parameter(quick) : null,
            Final = ambient is null ? Parameter(2) : new Measured(ambient.Value, ambient.Uncertainty),
        };
    }

    // A second lump that is too little known to be told still says by how much its leaving out may shorten the first; one slower than the record
    // is long is a drift.
    private static bool IsKnown(Fit two, int first, double span) =>
        two.Parameters[first + 1] < two.Parameters[1] / 2 && two.Parameters[1] < span && two.Uncertainty(1) < Unknown * two.Parameters[1];

    // The second lump must explain a good part of what is left, be quicker by a factor, and be known.
    private static bool Distinct(Fit one, Fit two, double resolution, int first)
    {
        double quick = two.Parameters[first + 1], slow = two.Parameters[1];
        bool known = two.Uncertainty(first) < 0.3 * Math.Abs(two.Parameters[first]) && two.Uncertainty(first + 1) < 0.5 * quick && two.Uncertainty(1) < 0.5 * slow;
        return known && quick < slow / 2 && Math.Abs(two.Parameters[first]) > resolution && two.ResidualSumOfSquares < 0.8 * one.ResidualSumOfSquares;
    }

    private static Fit Solve(double[] times, double[] values, double[] start, Input? ambient, int count)
    {
        int[] places = [.. Enumerable.Range(0, count).Where(k => ambient is null || k != 2)];
        double span = times[^1] - times[0];
        double[] lower = [-1e6, span / 1e4, -1e6, -1e6, span / 1e5], upper = [1e6, 1e3 * span, 1e6, 1e6, span];
        return LeastSquares.Solve(new FitProblem
        {
            Observed = values,
            Start = [.. places.Select(k => start[k])],
            Lower = [.. places.Select(k => lower[k])],
            Upper = [.. places.Select(k => upper[k])],
            Names = [.. places.Select(k => Names[k])],
            MaximumIterations = 300,
            Slopes = (p, columns) => Slopes(times, p, places, columns),
            Model = (p, predicted) =>
            {
                Span<double> all = stackalloc double[5];
                all[2] = ambient?.Value ?? 0;
                all[4] = 1;
                for (int k = 0; k < places.Length; k++)
                    all[places[k]] = p[k];
                for (int i = 0; i < predicted.Length; i++)
                {
                    double t = times[i] - times[0];
                    predicted[i] = all[2] + all[0] * Math.Exp(-t / all[1]) + (count > 3 ? all[3] * Math.Exp(-t / all[4]) : 0);
                }
            },
        });
    }

    private static void Slopes(double[] times, ReadOnlySpan<double> p, int[] places, double[][] columns)
    {
        for (int k = 0; k < places.Length; k++)
        {
            int lump = places[k] < 2 ? 0 : places.Length - 2;
            (double amplitude, double constant) = (p[lump], p[lump + 1]);
            for (int i = 0; i < times.Length; i++)
            {
                double t = times[i] - times[0];
                double left = places[k] == 2 ? 1 : Math.Exp(-t / constant);
                columns[k][i] = places[k] is 1 or 4 ? amplitude * t / (constant * constant) * left : left;
            }
        }
    }
}

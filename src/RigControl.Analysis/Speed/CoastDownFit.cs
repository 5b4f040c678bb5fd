using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Speed;

/// <summary>One term of the slowing, or why there is none.</summary>
/// <param name="Value">Slowing per its power of the speed: rad/s2, 1/s or 1/rad; null where the data do not support it.</param>
public sealed record DragTerm(Measured? Value, string? Reason);

/// <summary>
/// A coast-down's trajectory fitted whole: dw/dt = −(a + b w + c w²). Terms that the data cannot support are dropped, and what
/// dropping them moves counts as uncertainty of the others.
/// </summary>
public sealed record CoastDownFit
{
    private const int MostBlocks = 300;
    private const int FewestReadings = 12;
    private const string LeftOut = SharedPart.TermsLeftOut;
    private static readonly string[] Names = ["initial speed", "constant drag", "linear drag", "quadratic drag"];

    /// <summary>What the fit says of the speed, times from <see cref="Origin"/>.</summary>
    public required CoastDown Trajectory { get; init; }

    /// <summary>s.</summary>
    public required double Origin { get; init; }

    public required DragTerm Constant { get; init; }

    public required DragTerm Linear { get; init; }

    public required DragTerm Quadratic { get; init; }

    /// <summary>The fit of the terms that were kept.</summary>
    public required Fit Fit { get; init; }

    /// <summary>Parameters that <see cref="Fit"/> holds: 0 the initial speed, 1 to 3 the terms.</summary>
    public required IReadOnlyList<int> Kept { get; init; }

    /// <summary>The fit of all terms that the data settle, and which they are.</summary>
    private (Fit Fit, IReadOnlyList<int> Kept) Full { get; init; }

    /// <summary>Fits the readings from <paramref name="from"/> to <paramref name="to"/>, s.</summary>
    /// <exception cref="NoFigureException">Too few readings.</exception>
    /// <exception cref="FitFailedException">The readings follow no such law.</exception>
    public static CoastDownFit Of(SpeedSignal signal, double from, double to) => Of(signal, from, to, [0, 1, 2, 3], least: 2);

    /// <summary>The end of a coast-down alone, which stops for certain: a constant and a linear term, and a quadratic one where the data show it.</summary>
    internal static CoastDownFit OfEnd(SpeedSignal signal) => Of(signal, signal.Times[0], signal.Times[^1], [0, 1, 2, 3], least: 3);

    // The first terms, fewer than least, are never dropped.
    private static CoastDownFit Of(SpeedSignal signal, double from, double to, List<int> kept, int least)
    {
        SpeedSignal part = signal.Between(from, to);
        if (part.Count < FewestReadings)
            throw new NoFigureException($"the coast-down holds only {part.Count} usable speed readings");
        Blocks blocks = Blocks.Of(part, from, MostBlocks);
        (Fit full, List<int> settled) = Settle(blocks, kept);
        blocks = blocks.Reweighted(full.Residuals);
        (full, settled) = Settle(blocks, settled);
        string?[] reasons = new string?[4];
        Fit fit = full;
        kept = settled;
        while (Weakest(fit, kept, least) is { } weakest)
        {
            reasons[kept[weakest]] = Why(fit, weakest);
            kept = [.. kept.Where((_, k) => k != weakest)];
            (fit, kept) = Settle(blocks, kept);
        }

        return Result(from, full, settled, fit, kept, reasons);
    }

    /// <summary>From the stop output to <see cref="Origin"/>, s.</summary>
    public double Lead { get; init; }

    /// <summary>Speed at a time after the stop output, rad/s.</summary>
    public Measured SpeedAt(double time) => OfFit(c => c.Speed(time - Lead), "coast-down fit");

    internal Measured OfFit(Func<CoastDown, double> of, string name)
    {
        Measured value = Of(of, Fit, Kept);
        Input known = new(name, 0, value.Uncertainty, Fit.DegreesOfFreedom);
        return Full.Kept.Count > Kept.Count
            ? Measured.Of(value.Value, known, new Input(LeftOut, 0, OfLeftOut(value, Of(of, Full.Fit, Full.Kept))))
            : Measured.Of(value.Value, known);
    }

    // A term too small to be told from nothing need not be nothing: it may move what is kept by as much as it did, and by as much as it was
    // unknown. Without the second, readings that scatter more would leave a term out and seem to tell the rest better.
    private static double OfLeftOut(Measured value, Measured full)
    {
        double moved = value.Value - full.Value, unknown = full.Uncertainty * full.Uncertainty - value.Uncertainty * value.Uncertainty;
        return double.IsFinite(moved) && double.IsFinite(unknown) ? Math.Sqrt(Math.Max(moved * moved, unknown)) : 0;
    }

    private static Measured Of(Func<CoastDown, double> of, Fit fit, IReadOnlyList<int> kept)
    {
        Input[] inputs = [.. kept.Select((k, i) => new Input(Names[k], fit.Parameters[i], fit.Uncertainty(i), fit.DegreesOfFreedom))];
        double[,] correlations = new double[kept.Count, kept.Count];
        for (int i = 0; i < kept.Count; i++)
        {
            for (int j = 0; j < kept.Count; j++)
                correlations[i, j] = i == j ? 1 : fit.Correlation(i, j);
        }

        return Propagation.ByLaw(p => of(With(p, kept)), inputs, correlations);
    }

    // Few readings may not settle four parameters at all: then the highest power goes first.
    private static (Fit Fit, List<int> Kept) Settle(Blocks blocks, List<int> kept)
    {
        while (true)
        {
            try
            {
                return (Solve(blocks, kept), kept);
            }
            catch (FitFailedException) when (kept.Count > 2)
            {
                kept = kept[..^1];
            }
        }
    }

    private static Fit Solve(Blocks blocks, IReadOnlyList<int> kept)
    {
        double span = blocks.Times[^1] - blocks.Times[0];
        double first = blocks.Values[0], last = blocks.Values[^1];
        double[] start = [first, 0.5 * (first - last) / span, 0.25 * (first - last) / (span * Math.Max(first, 1)), 0.25 * (first - last) / (span * Math.Max(first * first, 1))];
        return LeastSquares.Solve(new FitProblem
        {
            Observed = blocks.Values,
            Uncertainties = blocks.Uncertainties,
            Start = [.. kept.Select(k => start[k])],
            Names = [.. kept.Select(k => Names[k])],
            MaximumIterations = 200,
            Model = (p, predicted) =>
            {
                CoastDown trajectory = With(p, kept);
                for (int i = 0; i < predicted.Length; i++)
                {
                    double speed = trajectory.Speed(blocks.Times[i]);
                    // A reading is the mean over its turn, and a block that over several: above the speed in the middle where the fall slows down.
                    predicted[i] = speed + 0.5 * trajectory.Bend(speed) * blocks.Spreads[i];
                }
            },
        }).WithNeighboursThatMakeUp();
    }

    internal static CoastDown With(ReadOnlySpan<double> p, IReadOnlyList<int> kept)
    {
        Span<double> all = stackalloc double[4];
        for (int k = 0; k < kept.Count; k++)
            all[kept[k]] = p[k];
        return new CoastDown(all[0], all[1], all[2], all[3]);
    }

    // The term least distinct from nothing, or below it; null where all are distinct, or one is left.
    private static int? Weakest(Fit fit, List<int> kept, int least)
    {
        if (kept.Count <= 2)
            return null;
        double needed = Coverage.Factor95(fit.DegreesOfFreedom);
        int weakest = Enumerable.Range(least - 1, kept.Count - least + 1).MinBy(k => fit.Parameters[k] / fit.Uncertainty(k));
        return fit.Parameters[weakest] < needed * fit.Uncertainty(weakest) ? weakest : null;
    }

    private static string Why(Fit fit, int k) => fit.Parameters[k] < -Coverage.Factor95(fit.DegreesOfFreedom) * fit.Uncertainty(k)
        ? "the trajectory would need a negative one: another law fits better"
        : "the data cannot tell it from nothing";

    private static CoastDownFit Result(double origin, Fit full, List<int> settled, Fit fit, List<int> kept, string?[] reasons)
    {
        DragTerm Term(int term)
        {
            int k = kept.IndexOf(term);
            if (k < 0)
                return new DragTerm(null, reasons[term] ?? "the data cannot tell it from the other terms");
            int before = settled.IndexOf(term);
            double left = before < 0 || kept.Count == settled.Count
                ? 0
                : OfLeftOut(new Measured(fit.Parameters[k], fit.Uncertainty(k)), new Measured(full.Parameters[before], full.Uncertainty(before)));
            return new DragTerm(Measured.Of(fit.Parameters[k], new Input("coast-down fit", 0, fit.Uncertainty(k), fit.DegreesOfFreedom), new Input(LeftOut, 0, left)), null);
        }

        return new CoastDownFit
        {
            Trajectory = With(fit.Parameters, kept), Origin = origin, Constant = Term(1), Linear = Term(2), Quadratic = Term(3), Fit = fit, Kept = kept, Full = (full, settled),
        };
    }
}

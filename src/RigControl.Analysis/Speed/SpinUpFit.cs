using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Speed;

/// <summary>
/// A spin-up fitted whole: torque under the current limit, then first order, with the drag that a coast-down gave, driven by the
/// demand as it was recorded. A limit that the data do not show is left out.
/// </summary>
public sealed record SpinUpFit
{
    private const int MostBlocks = 300;
    private const int Steps = 800;

    // A rise has corners, where a ramp or a limit ends; what is highest there is looked for in shorter steps.
    private const int ShortSteps = 8000;

    private static readonly string[] Names = ["final speed", "time constant", "delay", "share of the pack's resistance", "warming of the winding", "fading of the pack", "limit of acceleration"];

    // Pack, winding and charge show little in a speed. What is known of them beforehand counts as one more observation each: a pack has a
    // tenth to a half of all resistance; copper gains 0.4 % a kelvin, and a winding up to some seventeen kelvins in one rise, any of them as
    // likely, which is their width over the root of twelve (JCGM 100:2008, 4.3.7, from memory); a pack loses a thousandth of its voltage for
    // every half a hundredth of its charge, and a rise takes up to some hundredths (common practice, no source).
    private static readonly double[] Beforehand = [0.2, 0.03, 0.001];
    private static readonly double[] KnownTo = [0.15, 0.02, 0.003];
    private static readonly (double From, double To) Rising = (0.1, 0.6);
    private const int FirstBeforehand = 3;
    private const int LimitAt = 6;
    private const int Stretches = 32;

    // Readings that lie so many times their scatter off the curve were not followed at all.
    private const double Lost = 3;

    // Scatter that leads a lost search in, as a share of the highest speed.
    private const double LeadingScatter = 1e-3;

    public required SpinUp Model { get; init; }

    /// <summary>From demand to response, s.</summary>
    public required Measured Delay { get; init; }

    /// <summary>rad/s.</summary>
    public required Measured Final { get; init; }

    /// <summary>s.</summary>
    public required Measured TimeConstant { get; init; }

    /// <summary>rad/s2; null where the data do not show a limit.</summary>
    public required Measured? Limit { get; init; }

    public required Fit Fit { get; init; }

    /// <summary>Demand in the middle of every short step, as a share of the last one.</summary>
    private double[] Demands { get; init; } = [];

    /// <summary>The same of every step.</summary>
    private double[] LongDemands { get; init; } = [];

    // From the rise to the end of the fit, s.
    private double Span { get; init; }

    // s.
    private double Rise { get; init; }

    /// <summary>The fitted rise: time in s, speed in rad/s, and drive before drag in rad/s2; evenly in time.</summary>
    public IReadOnlyList<(double Time, double Speed, double Drive)> Curve() => CurveOf(Fit.Parameters);

    /// <summary>The same under other parameters, in the order of <see cref="Fit"/>.</summary>
    internal (double Time, double Speed, double Drive)[] CurveOf(ReadOnlySpan<double> parameters)
    {
        double[] grid = new double[Steps + 1];
        double dt = Span / Steps, from = Rise + parameters[2];
        Simulate(ModelOf(parameters, Model.Drag), LongDemands, Span, grid);
        var curve = new (double, double, double)[Steps];
        for (int i = 0; i < Steps; i++)
        {
            (double speed, double drive) = Point(grid, i, dt, Model.Drag);
            curve[i] = (from + (i + 0.5) * dt, speed, drive);
        }

        return curve;
    }

    private static double[] Longer(double[] demands)
    {
        const int each = ShortSteps / Steps;
        return [.. Enumerable.Range(0, Steps).Select(i => demands.AsSpan(i * each, each).ToArray().Average())];
    }

    /// <summary>Speed of the fitted rise under other parameters, rad/s.</summary>
    /// <param name="parameters">In the order of <see cref="Fit"/>.</param>
    /// <param name="time">s.</param>
    internal double SpeedAt(ReadOnlySpan<double> parameters, double time)
    {
        double[] grid = Simulated(parameters);
        return At(grid, (time - Rise - parameters[2]) / Span * ShortSteps);
    }

    /// <summary>Highest speed of the fitted rise, rad/s.</summary>
    internal double Fastest => Simulated(Fit.Parameters)[^1];

    /// <summary>Time from the demand until a speed in rad/s is reached, s; null where the fitted rise never gets there.</summary>
    public Measured? TimeTo(double speed) => double.IsFinite(Reached(Simulated(Fit.Parameters), speed)) ? OfFit(p => p[2] + Reached(Simulated(p), speed)) : null;

    // The law of propagation asks every formula for the same few sets of parameters.
    private double[] Simulated(ReadOnlySpan<double> parameters) => Rises.Of(parameters, p =>
    {
        double[] grid = new double[ShortSteps + 1];
        Simulate(ModelOf(p, Model.Drag), Demands, Span, grid);
        return grid;
    });

    private RememberedRises Rises { get; } = new();

    // From the begin of the grid, s; a rise that another set of parameters leaves short goes on as it ends.
    private double Reached(double[] grid, double speed)
    {
        int after = Array.FindIndex(grid, s => s >= speed);
        return after < 0 ? double.PositiveInfinity : after == 0 ? 0 : Span / ShortSteps * (after - 1 + (speed - grid[after - 1]) / (grid[after] - grid[after - 1]));
    }

    private static (double Speed, double Drive) Point(double[] grid, int i, double dt, CoastDown drag)
    {
        double speed = 0.5 * (grid[i] + grid[i + 1]);
        return (speed, (grid[i + 1] - grid[i]) / dt + (speed > 0 ? drag.Slowing(speed) : 0));
    }

    /// <summary>
    /// The highest of the rise, before drag: drive in rad/s2, and drive times speed in rad2/s3, which is torque and power per inertia. From the
    /// whole fit, since the slope of single readings says little within a rise of a few turns.
    /// </summary>
    public (Measured Drive, Measured Power) Highest()
    {
        Measured[] highest = EachOfFit(p => HighestOf(Simulated(p), Span / ShortSteps, Model.Drag));
        return (highest[0], highest[1]);
    }

    private static double[] HighestOf(double[] grid, double dt, CoastDown drag)
    {
        (double drives, double powers) = (0, 0);
        for (int i = 0; i + 1 < grid.Length; i++)
        {
            (double speed, double drive) = Point(grid, i, dt, drag);
            drives = drive > drives ? drive : drives;
            powers = drive * speed > powers ? drive * speed : powers;
        }

        return [drives, powers];
    }

    /// <summary>
    /// Time constant at full demand, s: the mean over the rise, each moment counted by its drive, for the winding warms meanwhile.
    /// </summary>
    public Measured MeanTimeConstant
    {
        get
        {
            double[] grid = new double[Steps + 1];
            double[] shares = LongDemands;
            return OfFit(p =>
            {
                SpinUp model = ModelOf(p, Model.Drag);
                (double heat, double drives) = (0, 0);
                Simulate(model, shares, Span, grid, (drive, used) => (heat, drives) = (heat + drive * used.Heat, drives + drive));
                return model.TimeConstantAfter(heat / drives);
            });
        }
    }

    /// <summary>A formula of the fit's parameters, by the law of propagation.</summary>
    internal Measured OfFit(Formula formula) => EachOfFit(p => [formula(p)])[0];

    /// <summary>Several of them, which share most of their work.</summary>
    internal Measured[] EachOfFit(Formulas formulas)
    {
        int count = Fit.Parameters.Length;
        double[,] correlations = new double[count, count];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
                correlations[i, j] = i == j ? 1 : Fit.Correlation(i, j);
        }

        Measured[] fitted = Propagation.EachByLaw(formulas, [.. Fit.Parameters.Select((p, k) => new Input(Names[k], p, Fit.Uncertainty(k), Fit.DegreesOfFreedom))], correlations);
        return [.. fitted.Select(f => Measured.Of(f.Value, new Input("spin-up fit", 0, f.Uncertainty, Fit.DegreesOfFreedom)))];
    }

    private static SpinUp ModelOf(ReadOnlySpan<double> p, CoastDown drag) =>
        new(p[0], p[1], p.Length > LimitAt && p[LimitAt] > 0 ? 1 / p[LimitAt] : double.PositiveInfinity, drag) { PackShare = p[3], Warming = p[4], Fade = p[5] };

    /// <summary>Fits the readings from the rise to <paramref name="to"/>, s.</summary>
    /// <param name="demand">Output in %, or null for a step at <paramref name="rise"/>.</param>
    /// <param name="drag">Slowing that a coast-down gave; the zero value takes none.</param>
    /// <exception cref="NoFigureException">Too few readings.</exception>
    /// <exception cref="FitFailedException">The readings follow no such law.</exception>
    public static SpinUpFit Of(SpeedSignal signal, double rise, double to, Series? demand, CoastDown drag)
    {
        SpeedSignal part = signal.Between(rise, to);
        if (part.Count < 12)
            throw new NoFigureException($"the spin-up holds only {part.Count} usable speed readings");
        Blocks blocks = Blocks.Of(part, rise, MostBlocks);
        double[] shares = Shares(demand, rise, to - rise, Steps);
        Fit fit = Best(limited => Solve(blocks, shares, to - rise, drag, limited));
        if (fit.ResidualDeviation > Lost)
            fit = LedIn(blocks, shares, to - rise, drag, fit);
        fit = Sharpened(fit, blocks, shares, to - rise, drag);
        double[] demands = Shares(demand, rise, to - rise, ShortSteps);
        return Result(fit, drag) with { Demands = demands, LongDemands = Longer(demands), Span = to - rise, Rise = rise };
    }

    // What is left over scatters as the readings do, and does not hang together.
    private static bool Explains(Fit fit) => fit.ResidualDeviation < 1.1 && Summary.CorrelationLength(fit.Residuals) < 1.5;

    // Without a limit, or with one where that does not explain the readings.
    private static Fit Best(Func<bool, Fit> solve)
    {
        Fit simple = solve(false);
        return Explains(simple) ? simple : Limited(solve, simple);
    }

    private static Fit Limited(Func<bool, Fit> solve, Fit simple)
    {
        try
        {
            Fit limited = solve(true);
            return limited.Parameters[LimitAt] > Coverage.Factor95(limited.DegreesOfFreedom) * limited.Uncertainty(LimitAt) && limited.ResidualSumOfSquares < 0.95 * simple.ResidualSumOfSquares
                ? limited
                : simple;
        }
        catch (FitFailedException)
        {
            // The data show no limit; the simpler model stands.
            return simple;
        }
    }

    // Readings that scatter next to not at all make so narrow a valley that the search sticks to its side. Believed less at first, they lead it in.
    private static Fit LedIn(Blocks blocks, double[] shares, double span, CoastDown drag, Fit lost)
    {
        double least = LeadingScatter * blocks.Values.Max();
        Blocks coarse = blocks with { Uncertainties = [.. blocks.Uncertainties.Select(u => Math.Max(u, least))] };
        try
        {
            Fit led = Best(limited => Solve(blocks, shares, span, drag, limited, Solve(coarse, shares, span, drag, limited).Parameters));
            return led.ResidualSumOfSquares < lost.ResidualSumOfSquares ? led : lost;
        }
        catch (FitFailedException)
        {
            return lost;
        }
    }

    // Turns share their marks, so that means of many are known better than single ones tell: the rise then counts for more beside what was
    // known beforehand.
    private static Fit Sharpened(Fit fit, Blocks blocks, double[] shares, double span, CoastDown drag)
    {
        double share = fit.ShareOfLongScatter(Stretches);
        if (share >= 1)
            return fit.WithSerialCorrelation();
        double factor = fit.ResidualDeviation * Math.Sqrt(share);
        Fit sharper = Solve(blocks with { Uncertainties = [.. blocks.Uncertainties.Select(u => u * factor)] }, shares, span, drag, fit.Parameters.Length > LimitAt, fit.Parameters, known: true);
        return sharper with { DegreesOfFreedom = Stretches - fit.Parameters.Length };
    }

    private static SpinUpFit Result(Fit fit, CoastDown drag)
    {
        Measured Parameter(int k) => Measured.Of(fit.Parameters[k], new Input("spin-up fit", 0, fit.Uncertainty(k), fit.DegreesOfFreedom));
        // The inverse is fitted, since nothing is then the plain end of its range; its relative uncertainty is the same.
        double inverse = fit.Parameters.Length > LimitAt ? fit.Parameters[LimitAt] : 0;
        Measured? limit = inverse > 0 ? Measured.Of(1 / inverse, new Input("spin-up fit", 0, fit.Uncertainty(LimitAt) / (inverse * inverse), fit.DegreesOfFreedom)) : null;
        return new SpinUpFit
        {
            Model = ModelOf(fit.Parameters, drag),
            Final = Parameter(0), TimeConstant = Parameter(1), Delay = Parameter(2), Limit = limit, Fit = fit,
        };
    }

    private static Fit Solve(Blocks blocks, double[] shares, double span, CoastDown drag, bool limited, double[]? from = null, bool known = false)
    {
        double final = blocks.Values.Max();
        double reached = blocks.Times[Array.FindIndex(blocks.Values, v => v >= 0.63 * final)];
        // A limit that is never reached has no slope: the fit begins where it is.
        double risen = blocks.Times[Array.FindIndex(blocks.Values, v => v >= Rising.To * final)] - blocks.Times[Array.FindIndex(blocks.Values, v => v >= Rising.From * final)];
        double usual = (Rising.To - Rising.From) * final / Math.Max(risen, 1e-3);
        double[] start = [final, Math.Max(0.3 * reached, 1e-3), 0, .. Beforehand, 1 / Math.Max(usual, 1)];
        int count = limited ? start.Length : LimitAt, seen = blocks.Values.Length;
        double[] grid = new double[Steps + 1];
        void Predict(ReadOnlySpan<double> p, Span<double> predicted)
        {
            Simulate(ModelOf(p, drag), shares, span, grid);
            double perStep = Steps / span;
            for (int i = 0; i < seen; i++)
            {
                // A reading is the mean over its turn, and a block that over several: as at two moments to either side of the middle.
                double place = (blocks.Times[i] - p[2]) * perStep, aside = Math.Sqrt(blocks.Spreads[i]) * perStep;
                predicted[i] = 0.5 * (At(grid, place - aside) + At(grid, place + aside));
            }

            for (int k = 0; k < Beforehand.Length; k++)
                predicted[seen + k] = p[FirstBeforehand + k];
        }

        double[] scale = ((double[])[final, start[1], 0.05, 0.1, 0.1, 0.01, start[^1]])[..count];
        Fit fit = LeastSquares.Solve(new FitProblem
        {
            Observed = [.. blocks.Values, .. Beforehand],
            Uncertainties = [.. blocks.Uncertainties, .. KnownTo],
            UncertaintiesKnown = known,
            Start = from ?? start[..count],
            Lower = ((double[])[0, 1e-4, -0.5, -0.5, -0.5, -0.5, 0])[..count],
            Upper = ((double[])[double.MaxValue, 1e4, 5, 0.9, 5, 0.5, double.MaxValue])[..count],
            Names = Names[..count],
            MaximumIterations = 400,
            Model = Predict,
            Slopes = (p, columns) => Slopes(Predict, p, scale, columns),
        });
        return fit with { Residuals = fit.Residuals[..seen], Uncertainties = blocks.Uncertainties };
    }

    // By differences to both sides; the rise goes straight between its steps, so that a finer rule would tell no more.
    private static void Slopes(Fitting.Model predict, ReadOnlySpan<double> p, double[] scale, double[][] columns)
    {
        double[] moved = p.ToArray(), below = new double[columns[0].Length];
        for (int j = 0; j < moved.Length; j++)
        {
            double h = 1e-4 * Math.Max(Math.Abs(p[j]), scale[j]);
            (moved[j], double low) = (p[j] + h, Math.Max(p[j] - h, j == LimitAt ? 0 : double.MinValue));
            predict(moved, columns[j]);
            moved[j] = low;
            predict(moved, below);
            for (int i = 0; i < below.Length; i++)
                columns[j][i] = (columns[j][i] - below[i]) / (p[j] + h - low);
            moved[j] = p[j];
        }
    }

    // Speeds at the ends of all steps, rad/s; each step's drive and what was used by then is told.
    private static void Simulate(SpinUp model, double[] shares, double span, double[] grid, Action<double, SpinUp.Used>? told = null)
    {
        SpinUp.Used used = default;
        double dt = span / shares.Length;
        grid[0] = 0;
        for (int i = 0; i < shares.Length; i++)
        {
            double charge = used.Charge;
            grid[i + 1] = model.Advance(grid[i], shares[i], dt, ref used);
            if (told is not null && shares[i] > 0)
                told((used.Charge - charge) / shares[i], used);
        }
    }

    private static double At(double[] grid, double place)
    {
        int below = Math.Clamp((int)place, 0, grid.Length - 2);
        return place <= 0 ? 0 : grid[below] + (place - below) * (grid[below + 1] - grid[below]);
    }

    // Demand in the middle of every step, as a share of the last one.
    private static double[] Shares(Series? demand, double rise, double span, int steps)
    {
        double[] shares = new double[steps];
        Array.Fill(shares, 1);
        if (demand is not { Count: > 1 })
            return shares;
        int k = 0;
        double Next(double time)
        {
            while (k + 1 < demand.Count && demand.Times[k + 1] <= time)
                k++;
            return k + 1 >= demand.Count || demand.Times[k] > time ? demand.Values[k] : Between(demand, k, time);
        }

        for (int i = 0; i < steps; i++)
            shares[i] = Next(rise + (i + 0.5) * span / steps);
        double full = shares[^1];
        if (!(full > 0))
            throw new NoFigureException("the output was not on at the end of the spin-up");
        for (int i = 0; i < steps; i++)
            shares[i] = Math.Clamp(shares[i] / full, 0, 1);
        return shares;
    }

    // A straight line to the next sample; where a ramp begins or ends between the two, the lines before and after them meet there.
    private static double Between(Series demand, int k, double time)
    {
        double Slope(int i) => (demand.Values[i + 1] - demand.Values[i]) / (demand.Times[i + 1] - demand.Times[i]);
        double value = demand.Values[k] + Slope(k) * (time - demand.Times[k]);
        if (k == 0 || k + 2 >= demand.Count)
            return value;
        (double before, double across, double after) = (Slope(k - 1), Slope(k), Slope(k + 1));
        double left = demand.Values[k] + before * (time - demand.Times[k]), right = demand.Values[k + 1] - after * (demand.Times[k + 1] - time);
        return before > across && across > after ? Math.Min(left, right) : before < across && across < after ? Math.Max(left, right) : value;
    }
}

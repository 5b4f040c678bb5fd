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

    // Sag of the pack and warming of the winding, which the model leaves out, move the torque by about this share, and the power, which
    // peaks later, by this; both as a survey of simulated runs shows.
    private const double LeftOutOfTorque = 0.022;
    private const double LeftOutOfPower = 0.009;
    private static readonly string[] Names = ["final speed", "time constant", "delay", "limit of acceleration"];

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

    /// <summary>Demand in the middle of every step of the simulation, as a share of the last one.</summary>
    private double[] Demands { get; init; } = [];

    // From the rise to the end of the fit, s.
    private double Span { get; init; }

    // s.
    private double Rise { get; init; }

    /// <summary>The fitted rise: time in s, speed in rad/s, and drive before drag in rad/s2.</summary>
    public IReadOnlyList<(double Time, double Speed, double Drive)> Curve()
    {
        double[] grid = new double[Steps + 1];
        Simulate(Model, Demands, Span / Steps, grid);
        return [.. Enumerable.Range(0, Steps).Select(i => Point(grid, i, Model.Drag) is var (speed, drive) ? (Rise + Delay.Value + (i + 0.5) * Span / Steps, speed, drive) : default)];
    }

    /// <summary>Speed of the fitted rise under other parameters, rad/s.</summary>
    /// <param name="parameters">In the order of <see cref="Fit"/>.</param>
    /// <param name="time">s.</param>
    internal double SpeedAt(ReadOnlySpan<double> parameters, double time)
    {
        double[] grid = new double[Steps + 1];
        Simulate(ModelOf(parameters, Model.Drag), Demands, Span / Steps, grid);
        return At(grid, (time - Rise - parameters[2]) / Span * Steps);
    }

    private (double Speed, double Drive) Point(double[] grid, int i, CoastDown drag)
    {
        double speed = 0.5 * (grid[i] + grid[i + 1]);
        return (speed, (grid[i + 1] - grid[i]) / (Span / Steps) + (speed > 0 ? drag.Slowing(speed) : 0));
    }

    /// <summary>
    /// The highest drive of the rise, before drag: rad/s2, or rad2/s3 as power, each per inertia. From the whole fit, since the slope of
    /// single readings says little within a rise of a few turns.
    /// </summary>
    public Measured HighestDrive(bool power)
    {
        CoastDown drag = Model.Drag;
        double[] grid = new double[Steps + 1];
        double Highest(ReadOnlySpan<double> p)
        {
            SpinUp model = ModelOf(p, drag);
            Simulate(model, Demands, Span / Steps, grid);
            double highest = 0;
            for (int i = 0; i < Steps; i++)
            {
                (double speed, double drive) = Point(grid, i, drag);
                highest = Math.Max(highest, power ? drive * speed : drive);
            }

            return highest;
        }

        int count = Fit.Parameters.Length;
        double[,] correlations = new double[count, count];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
                correlations[i, j] = i == j ? 1 : Fit.Correlation(i, j);
        }

        Measured fitted = Propagation.ByLaw(Highest, [.. Fit.Parameters.Select((p, k) => new Input(Names[k], p, Fit.Uncertainty(k), Fit.DegreesOfFreedom))], correlations);
        return Measured.Of(fitted.Value, new Input("spin-up fit", 0, fitted.Uncertainty, Fit.DegreesOfFreedom), new Input("what the model leaves out", 0, (power ? LeftOutOfPower : LeftOutOfTorque) * fitted.Value));
    }

    private static SpinUp ModelOf(ReadOnlySpan<double> p, CoastDown drag) => new(p[0], p[1], p.Length > 3 && p[3] > 0 ? 1 / p[3] : double.PositiveInfinity, drag);

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
        double[] shares = Shares(demand, rise, to - rise);
        Fit simple = Solve(blocks, shares, to - rise, drag, limited: false);
        Fit fit = simple;
        try
        {
            Fit limited = Solve(blocks, shares, to - rise, drag, limited: true);
            if (limited.Parameters[3] > Coverage.Factor95(limited.DegreesOfFreedom) * limited.Uncertainty(3) && limited.ResidualSumOfSquares < 0.95 * simple.ResidualSumOfSquares)
                fit = limited;
        }
        catch (FitFailedException)
        {
            // The data show no limit; the simpler model stands.
        }

        return Result(fit.WithSerialCorrelation(), drag) with { Demands = shares, Span = to - rise, Rise = rise };
    }

    private static SpinUpFit Result(Fit fit, CoastDown drag)
    {
        Measured Parameter(int k) => Measured.Of(fit.Parameters[k], new Input("spin-up fit", 0, fit.Uncertainty(k), fit.DegreesOfFreedom));
        // The inverse is fitted, since nothing is then the plain end of its range; its relative uncertainty is the same.
        double inverse = fit.Parameters.Length > 3 ? fit.Parameters[3] : 0;
        Measured? limit = inverse > 0 ? Measured.Of(1 / inverse, new Input("spin-up fit", 0, fit.Uncertainty(3) / (inverse * inverse), fit.DegreesOfFreedom)) : null;
        return new SpinUpFit
        {
            Model = new SpinUp(fit.Parameters[0], fit.Parameters[1], limit?.Value ?? double.PositiveInfinity, drag),
            Final = Parameter(0), TimeConstant = Parameter(1), Delay = Parameter(2), Limit = limit, Fit = fit,
        };
    }

    private static Fit Solve(Blocks blocks, double[] shares, double span, CoastDown drag, bool limited)
    {
        double final = blocks.Values.Max();
        double reached = blocks.Times[Array.FindIndex(blocks.Values, v => v >= 0.63 * final)];
        double steepest = Enumerable.Range(1, blocks.Values.Length - 1).Max(i => (blocks.Values[i] - blocks.Values[i - 1]) / (blocks.Times[i] - blocks.Times[i - 1]));
        double[] start = [final, Math.Max(0.3 * reached, 1e-3), 0, 1 / Math.Max(steepest, 1)];
        int count = limited ? 4 : 3;
        double[] grid = new double[Steps + 1];
        return LeastSquares.Solve(new FitProblem
        {
            Observed = blocks.Values,
            Uncertainties = blocks.Uncertainties,
            Start = start[..count],
            Lower = ((double[])[0, 1e-4, -0.5, 0])[..count],
            Upper = ((double[])[double.MaxValue, 1e4, 5, double.MaxValue])[..count],
            Scale = ((double[])[final, start[1], 0.05, start[3]])[..count],
            Names = Names[..count],
            MaximumIterations = 100,
            Model = (p, predicted) =>
            {
                SpinUp model = ModelOf(p, drag);
                Simulate(model, shares, span / Steps, grid);
                for (int i = 0; i < predicted.Length; i++)
                    predicted[i] = At(grid, (blocks.Times[i] - p[2]) / span * Steps);
            },
        });
    }

    private static void Simulate(SpinUp model, double[] shares, double dt, double[] grid)
    {
        double approach = 1 - Math.Exp(-dt / model.TimeConstant);
        grid[0] = 0;
        for (int i = 0; i < Steps; i++)
            grid[i + 1] = model.Advance(grid[i], shares[i], dt, approach);
    }

    private static double At(double[] grid, double place)
    {
        int below = Math.Clamp((int)place, 0, Steps - 1);
        return place <= 0 ? 0 : grid[below] + (place - below) * (grid[below + 1] - grid[below]);
    }

    // Demand in the middle of every step, as a share of the last one.
    private static double[] Shares(Series? demand, double rise, double span)
    {
        double[] shares = new double[Steps];
        Array.Fill(shares, 1);
        if (demand is not { Count: > 1 })
            return shares;
        int k = 0;
        double Next(double time)
        {
            while (k + 1 < demand.Count && demand.Times[k + 1] <= time)
                k++;
            if (k + 1 >= demand.Count || demand.Times[k] > time)
                return demand.Values[k];
            return demand.Values[k] + (demand.Values[k + 1] - demand.Values[k]) * (time - demand.Times[k]) / (demand.Times[k + 1] - demand.Times[k]);
        }

        for (int i = 0; i < Steps; i++)
            shares[i] = Next(rise + (i + 0.5) * span / Steps);
        double full = shares[^1];
        if (!(full > 0))
            throw new NoFigureException("the output was not on at the end of the spin-up");
        for (int i = 0; i < Steps; i++)
            shares[i] = Math.Clamp(shares[i] / full, 0, 1);
        return shares;
    }
}

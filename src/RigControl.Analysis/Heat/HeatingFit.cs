using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Heat;

/// <summary>
/// A part that is heated and cools, over both: temperature − surroundings = Σ gain × (load, smoothed with a time constant). One lump, or two
/// where the data show the second. A second one that the data cannot settle is not told, but what both come to together mostly is known:
/// left out it would take its part off the long run.
/// </summary>
/// <param name="Gain">K per unit of load in the long run; both lumps together.</param>
/// <param name="TimeConstant">Of the slow lump, s.</param>
/// <param name="Lumps">K per unit of load and time constant in s of each that the data settle.</param>
/// <param name="Ambient">degC.</param>
public sealed record HeatingFit(Measured Gain, Measured TimeConstant, IReadOnlyList<(double Gain, double TimeConstant)> Lumps, double Ambient, Fit Fit)
{
    private const int FewestSamples = 12;

    // Of the long run: above it both lumps together are not known either.
    private const double Unknown = 0.3;

    // How many times as quick as the first lump the second one is looked for.
    private static readonly double[] Quicker = [10, 40];

    /// <summary>Moments of the samples, s.</summary>
    internal double[] Times { get; private init; } = [];

    private double[] Loads { get; init; } = [];
    private static readonly string[] Names = ["slow gain", "slow time constant", "first temperature", "quick gain", "quick time constant"];

    /// <summary>Fits temperatures under a load: W for a thermal resistance in K/W, A² for heating by a current.</summary>
    /// <param name="times">s, rising.</param>
    /// <param name="temperatures">degC at the times.</param>
    /// <param name="load">From each time to the next, 0 and above.</param>
    /// <exception cref="NoFigureException">Too few samples, no load, or hardly any change.</exception>
    /// <exception cref="FitFailedException">The samples follow no such law.</exception>
    public static HeatingFit Of(double[] times, double[] temperatures, double[] load, Input ambient)
    {
        if (times.Length < FewestSamples)
            throw new NoFigureException("too few temperature samples");
        double most = load.Max(), rise = temperatures.Max() - ambient.Value, noise = Speed.SpeedSignal.NoiseOf(temperatures, 0);
        if (!(most > 0) || !(temperatures.Max() - temperatures.Min() > 5 * noise))
            throw new NoFigureException(most > 0 ? "the temperature hardly changed" : "nothing heated the part");
        double span = times[^1] - times[0];
        Fit one = Solve(times, temperatures, load, ambient.Value, [rise / most, span / 3, temperatures[0] - ambient.Value]);
        Fit? two = Quicker.Select(q => Tried(times, temperatures, load, ambient.Value, [.. one.Parameters, 0.3 * rise / most, one.Parameters[1] / q])).FirstOrDefault(f => f is not null);
        HeatingFit simple = Result(one.WithSerialCorrelation(), ambient, rise), best = two is null ? simple : Result(two.WithSerialCorrelation(), ambient, rise);
        if (!(best.Gain.Uncertainty < Unknown * best.Gain.Value))
            best = simple with { Gain = Measured.Of(simple.Gain.Value, simple.Gain.As("one lump alone"), new Input(SharedPart.SecondLump, 0, Math.Abs(best.Gain.Value - simple.Gain.Value))) };
        bool told = two is not null && Distinct(one, two);
        return best with { Times = times, Loads = load, Lumps = told ? best.Lumps : [best.Lumps[0]] };
    }

    // Null where a second lump cannot be told from the first.
    private static Fit? Tried(double[] times, double[] temperatures, double[] load, double ambient, double[] start)
    {
        try
        {
            return Solve(times, temperatures, load, ambient, start);
        }
        catch (FitFailedException)
        {
            return null;
        }
    }

    /// <summary>degC at every sample under other parameters, in the order of <see cref="Fit"/>.</summary>
    internal double[] Curve(ReadOnlySpan<double> parameters)
    {
        double[] curve = new double[Times.Length];
        Predict(Steps(Times), Loads, Ambient, parameters, curve);
        return curve;
    }

    /// <summary>degC after <paramref name="time"/> s of a steady load from the temperature of the surroundings.</summary>
    public double After(double time, double load) => Ambient + Rise(Fit.Parameters, time, load);

    /// <summary>s of a steady load from the surroundings until a temperature in degC is passed; infinity where it never is.</summary>
    public double TimeTo(double temperature, double load)
    {
        if (temperature <= Ambient)
            return 0;
        if (After(double.PositiveInfinity, load) <= temperature)
            return double.PositiveInfinity;
        (double low, double high) = (0, Fit.Parameters[1]);
        while (After(high, load) < temperature)
            high *= 2;
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = After(middle, load) < temperature ? (middle, high) : (low, middle);
        }

        return high;
    }

    /// <summary>The same from stated surroundings, with what the fit leaves uncertain, s.</summary>
    /// <exception cref="NoFigureException">It never gets so warm, or is so from the beginning.</exception>
    /// <param name="surroundings">degC, of which everything is in the beginning.</param>
    public Measured TimeToLimit(double temperature, double load, double surroundings)
    {
        // What counts is by how much the part may rise.
        double time = TimeTo(temperature - surroundings + Ambient, load);
        if (!double.IsFinite(time) || time == 0)
            throw new NoFigureException(time == 0 ? "the surroundings are as warm as the limit" : "at this current it never gets so warm");
        // By how much a change of each parameter moves the temperature at that moment, over how fast it rises there.
        double[] p = Fit.Parameters;
        double slope = load * (p[0] / p[1] * Math.Exp(-time / p[1]) + (p.Length > 3 ? p[3] / p[4] * Math.Exp(-time / p[4]) : 0));
        Measured then = Propagation.ByLaw(p => Rise(p, time, load), Inputs(), Correlations());
        double ambient = Gain.Budget.FirstOrDefault(b => b.Name == "ambient")?.Uncertainty ?? 0;
        return Measured.Of(time, new Input("scatter of the temperatures", 0, then.Uncertainty / slope, Fit.DegreesOfFreedom), new Input("ambient", 0, ambient * load / slope));
    }

    private static double Rise(ReadOnlySpan<double> p, double time, double load) =>
        load * (p[0] * (1 - Math.Exp(-time / p[1])) + (p.Length > 3 ? p[3] * (1 - Math.Exp(-time / p[4])) : 0));

    private Input[] Inputs() => [.. Fit.Parameters.Select((p, k) => new Input(Names[k], p, Fit.Uncertainty(k), Fit.DegreesOfFreedom))];

    private double[,] Correlations()
    {
        int count = Fit.Parameters.Length;
        double[,] correlations = new double[count, count];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
                correlations[i, j] = i == j ? 1 : Fit.Correlation(i, j);
        }

        return correlations;
    }

    /// <summary>Load under which the part stays below a temperature in degC for ever, at surroundings of <paramref name="ambient"/>, degC.</summary>
    public Measured Continuous(double temperature, double ambient) => ForEver(temperature, ambient, load => load);

    /// <summary>The same as a current, A, where the load is its square.</summary>
    public Measured ContinuousCurrent(double temperature, double ambient) => ForEver(temperature, ambient, load => Math.Sqrt(Math.Max(0, load)));

    private Measured ForEver(double temperature, double ambient, Func<double, double> of) => temperature > ambient
        ? Propagation.Of(x => of((temperature - ambient) / x[0]), [Gain.As("heating per load")])
        : throw new NoFigureException("the surroundings are as warm as the limit");

    private static HeatingFit Result(Fit fit, Input ambient, double rise)
    {
        double[] p = fit.Parameters;
        bool two = p.Length > 3;
        double variance = fit.Covariance[0, 0] + (two ? fit.Covariance[3, 3] + 2 * fit.Covariance[0, 3] : 0);
        double gain = p[0] + (two ? p[3] : 0);
        Input scatter = new("scatter of the temperatures", 0, Math.Sqrt(Math.Max(0, variance)), fit.DegreesOfFreedom);
        // Surroundings taken too warm take as much off every rise.
        double warmest = Math.Max(1e-9, rise);
        return new HeatingFit(
            Measured.Of(gain, scatter, new Input("ambient", 0, gain * ambient.Uncertainty / warmest)),
            Measured.Of(p[1], new Input("scatter of the temperatures", 0, fit.Uncertainty(1), fit.DegreesOfFreedom)),
            two ? [(p[0], p[1]), (p[3], p[4])] : [(p[0], p[1])], ambient.Value, fit);
    }

    // The second lump must explain a good part of what is left, be quicker by a factor, and be known.
    private static bool Distinct(Fit one, Fit two) =>
        two.Uncertainty(3) < 0.3 * two.Parameters[3] && two.Uncertainty(4) < 0.5 * two.Parameters[4] && two.Uncertainty(1) < 0.5 * two.Parameters[1]
        && two.Parameters[4] < two.Parameters[1] / 2 && two.ResidualSumOfSquares < 0.8 * one.ResidualSumOfSquares;

    private static Fit Solve(double[] times, double[] temperatures, double[] load, double ambient, double[] start)
    {
        double span = times[^1] - times[0], most = load.Max();
        double[] steps = Steps(times);
        // What is quicker than the samples follow each other is a step to them, whose speed nothing tells.
        double[] lower = [0, span / 1e4, -1e3, 0, span / (times.Length - 1)], upper = [1e6 / most, 1e3 * span, 1e3, 1e6 / most, span];
        return LeastSquares.Solve(new FitProblem
        {
            Observed = temperatures,
            Start = start,
            Lower = lower[..start.Length],
            Upper = upper[..start.Length],
            Names = Names[..start.Length],
            MaximumIterations = 300,
            Slopes = (p, columns) =>
            {
                Slopes(steps, load, (p[0], p[1], p[2]), columns[0], columns[1], columns[2]);
                if (p.Length > 3)
                    Slopes(steps, load, (p[3], p[4], 0), columns[3], columns[4], new double[times.Length]);
            },
            Model = (p, predicted) => Predict(steps, load, ambient, p, predicted),
        });
    }

    // s from each time to the next, to a billionth: what follows evenly does so to the last bit.
    private static double[] Steps(double[] times) => [.. times.Zip(times.Skip(1), (t, next) => Math.Round(next - t, 9))];

    private static void Predict(double[] steps, double[] load, double ambient, ReadOnlySpan<double> p, Span<double> predicted)
    {
        bool two = p.Length > 3;
        (double slow, double quick) = (p[2], 0);
        Decay bySlow = new(p[1]), byQuick = new(two ? p[4] : 1);
        predicted[0] = ambient + slow;
        for (int i = 1; i < predicted.Length; i++)
        {
            slow += (p[0] * load[i - 1] - slow) * (1 - bySlow.Left(steps[i - 1]));
            if (two)
                quick += (p[3] * load[i - 1] - quick) * (1 - byQuick.Left(steps[i - 1]));
            predicted[i] = ambient + slow + quick;
        }
    }

    // What one lump's part of the temperature changes by with each of its parameters, at every time: along with the part itself.
    private static void Slopes(double[] steps, double[] load, (double Gain, double Constant, double First) lump, double[] byGain, double[] byConstant, double[] byFirst)
    {
        double part = lump.First;
        Decay decay = new(lump.Constant);
        (byGain[0], byConstant[0], byFirst[0]) = (0, 0, 1);
        for (int i = 1; i < byGain.Length; i++)
        {
            double dt = steps[i - 1], left = decay.Left(dt), above = part - lump.Gain * load[i - 1];
            byGain[i] = byGain[i - 1] * left + load[i - 1] * (1 - left);
            byConstant[i] = (byConstant[i - 1] + above * dt / (lump.Constant * lump.Constant)) * left;
            byFirst[i] = byFirst[i - 1] * left;
            part -= above * (1 - left);
        }
    }

    // The share of a lump's warmth that is left after a step, worked out anew only where the step is another than the one before.
    private struct Decay(double constant)
    {
        private double _step = double.NaN;
        private double _left;

        public double Left(double step)
        {
            if (step != _step)
                (_step, _left) = (step, Math.Exp(-step / constant));
            return _left;
        }
    }
}

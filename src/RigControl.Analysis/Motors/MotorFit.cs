using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Motors;

/// <summary>
/// A motor and its controller as one resistance behind a back-EMF, from levels and ramps: duty × voltage = resistance × winding
/// current + Ke × speed. First-order model: M. Drela, First-Order DC Electric Motor Model, MIT 2007 (from memory).
/// </summary>
/// <param name="EmfConstant">Ke, V.s/rad, which is Kt in N.m/A.</param>
/// <param name="Resistance">Winding and controller, ohm.</param>
/// <param name="Correlation">Of the two, -1 to 1.</param>
public sealed record MotorFit(Measured EmfConstant, Measured Resistance, double Correlation)
{
    // Of the usual scatter around what most agree on.
    private const double Outlying = 10;

    private const int MostMeans = 200;

    // Heat capacity of the copper of a small winding, about 20 g, J/K (common practice, no source).
    private const double Copper = 8;

    /// <summary>Kv, rpm/V, with the budget of the constant that it is the inverse of.</summary>
    public Measured SpeedConstant
    {
        get
        {
            Measured inverse = Propagation.Of(x => 30 / (Math.PI * x[0]), [EmfConstant.As("back-EMF constant")]);
            return EmfConstant.Uncertainty > 0 ? inverse with { Budget = EmfConstant.Times(inverse.Uncertainty / EmfConstant.Uncertainty).Budget } : inverse;
        }
    }

    /// <summary>Fits moments at which duty, voltage, pack current and speed are known together.</summary>
    /// <exception cref="NoFigureException">Too few moments.</exception>
    /// <exception cref="FitFailedException">Speed and current only ever changed together.</exception>
    public static MotorFit Of(IReadOnlyList<DriveMoment> moments)
    {
        if (moments.Count < 20)
            throw new NoFigureException("the output was held at a level, or on a ramp slow enough, for too short a time");
        double noise = Speed.SpeedSignal.NoiseOf([.. moments.Select(m => m.WindingCurrent)], 0);
        // The law is linear, so that means of neighbours follow it as well, and scatter less.
        int size = Math.Max(1, moments.Count / MostMeans);
        (List<DriveMoment> means, double perNumber) = Means(moments, size);
        IReadOnlyList<DriveMoment> kept = Agreeing(means);
        (Fit fit, double flattened) = Sharpened(kept, Fitted(kept), noise * Math.Sqrt(perNumber));
        // Half of the median's efficiency beside that of the deviation: second differences share their samples.
        double unsure = flattened * 2 / Math.Sqrt(0.37 * moments.Count);
        double perSpeed = kept.Average(m => m.WindingCurrent) / kept.Average(m => m.Speed);
        // The winding warms and cools while it is looked at; how much is not seen, but all heat of the rise and the hold is its most.
        double warming = 0.5 * Physics.Motor.CopperCoefficient * fit.Parameters[0] * moments[^1].Heat / Copper;
        double[] lagging = Lagging(kept);
        Measured Parameter(int k, double share) => Measured.Of(
            fit.Parameters[k], new Input("scatter of the samples", 0, fit.Uncertainty(k), fit.DegreesOfFreedom), new Input("scatter of the current", 0, unsure * share),
            new Input(SharedPart.Warming, 0, Measured.OfResolution(2 * warming) * fit.Parameters[0] * share, Shape: Shape.Rectangular),
            new Input(SharedPart.Lag, 0, Math.Abs(lagging[k]), Shape: Shape.Rectangular));
        return new MotorFit(Parameter(1, perSpeed), Parameter(0, 1), fit.Correlation(0, 1));
    }

    // How the constants would move if the controller lagged by a standard uncertainty more: the law is linear, so that the fit of that alone says it.
    private static double[] Lagging(IReadOnlyList<DriveMoment> moments) => moments.All(m => m.Lag == 0) ? [0, 0] : [.. LinearFit.Solve(
        [[.. moments.Select(m => m.WindingCurrent)], [.. moments.Select(m => m.Speed)]],
        [.. moments.Select(m => m.Lag * m.Duty * m.Voltage)]).Parameters];

    // Of at most so many neighbours of the same level or ramp, and the mean of one over their numbers: a mean's scatter goes with it.
    private static (List<DriveMoment> Means, double PerNumber) Means(IReadOnlyList<DriveMoment> moments, int size)
    {
        List<DriveMoment> means = [];
        double perNumber = 0;
        for (int from = 0, end; from < moments.Count; from = end)
        {
            end = from + 1;
            while (end < moments.Count && end - from < size && IsNeighbour(moments[end - 1], moments[end]))
                end++;
            DriveMoment[] some = [.. moments.Skip(from).Take(end - from)];
            means.Add(new DriveMoment(some.Average(m => m.Time), some.Average(m => m.Duty), some.Average(m => m.Voltage), some.Average(m => m.PackCurrent), some.Average(m => m.Speed)) { Lag = some.Average(m => m.Lag) });
            perNumber += 1.0 / some.Length;
        }

        return (means, perNumber / means.Count);
    }

    private static bool IsNeighbour(DriveMoment one, DriveMoment next) => one.Lag == 0 && next.Lag == 0 ? one.Duty == next.Duty : one.Lag * next.Lag > 0;

    // A controller at its limit gives less than the demand: such moments lie off those on which most agree, and are left out.
    private static IReadOnlyList<DriveMoment> Agreeing(IReadOnlyList<DriveMoment> moments)
    {
        (double, double) agreed = MostAgree.Of(moments);
        double usual = Summary.Median([.. moments.Select(m => Math.Abs(MostAgree.Off(m, agreed)))]) / 0.6745;
        IReadOnlyList<DriveMoment> kept = [.. moments.Where(m => Math.Abs(MostAgree.Off(m, agreed)) <= Outlying * usual)];
        return kept.Count >= moments.Count / 2 ? kept : moments;
    }

    private static Fit Fitted(IReadOnlyList<DriveMoment> moments) => LinearFit.Solve(
        [[.. moments.Select(m => m.WindingCurrent)], [.. moments.Select(m => m.Speed)]],
        [.. moments.Select(m => m.Duty * m.Voltage)]);

    // Scatter of the current flattens the line, by its share of what the speed does not explain of the current: the line is steeper,
    // and known as much worse. The second value is what was added to the resistance, ohm.
    private static (Fit Fit, double Flattened) Sharpened(IReadOnlyList<DriveMoment> moments, Fit fit, double noise)
    {
        Fit other = LinearFit.Solve([[.. moments.Select(m => m.Speed)]], [.. moments.Select(m => m.WindingCurrent)]);
        double own = other.ResidualDeviation;
        if (!(own > 1.5 * noise))
            throw new NoFigureException("speed and current changed too little at held levels and on slow ramps to tell it");
        double factor = 1 / (1 - noise * noise / (own * own));
        double steeper = fit.Parameters[0] * (factor - 1);
        double[,] covariance = (double[,])fit.Covariance.Clone();
        for (int i = 0; i < 2; i++)
        {
            for (int j = 0; j < 2; j++)
                covariance[i, j] *= factor * factor;
        }

        Fit sharp = fit with { Parameters = [fit.Parameters[0] + steeper, fit.Parameters[1] - steeper * other.Parameters[0]], Covariance = covariance };
        return (sharp.WithSerialCorrelation(), steeper);
    }
}

/// <summary>What the drive did at one moment.</summary>
/// <param name="Duty">Share of the pack's voltage that the winding sees, above 0 to 1.</param>
/// <param name="Voltage">Pack, V.</param>
/// <param name="PackCurrent">Without the electronics' own draw, A.</param>
/// <param name="Speed">rad/s.</param>
public readonly record struct DriveMoment(double Time, double Duty, double Voltage, double PackCurrent, double Speed)
{
    /// <summary>Square of the winding current, summed over the time since the rise, A2.s.</summary>
    public double Heat { get; init; }

    /// <summary>Standard uncertainty of the duty, of itself, from what the controller lags on a ramp, with the ramp's sign; 0 where a level is held.</summary>
    public double Lag { get; init; }

    /// <summary>A controller passes power: what the winding takes at a duty, the pack gives at duty times the current.</summary>
    public double WindingCurrent => PackCurrent / Duty;
}

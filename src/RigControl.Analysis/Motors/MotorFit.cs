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

    // A winding gains a few kelvins while it is looked at, each 0.4 % of its resistance.
    private const double Warming = 0.01;

    /// <summary>Kv, rpm/V.</summary>
    public Measured SpeedConstant => Propagation.Of(x => 30 / (Math.PI * x[0]), [EmfConstant.As("back-EMF constant")]);

    /// <summary>Fits moments at which duty, voltage, pack current and speed are known together.</summary>
    /// <exception cref="NoFigureException">Too few moments.</exception>
    /// <exception cref="FitFailedException">Speed and current only ever changed together.</exception>
    public static MotorFit Of(IReadOnlyList<DriveMoment> moments)
    {
        if (moments.Count < 20)
            throw new NoFigureException("the output was held at a level for too short a time");
        // A controller at its limit gives less than the demand: such moments lie off those on which most agree, and are left out.
        (double, double) agreed = MostAgree.Of(moments);
        double noise = Summary.Median([.. moments.Select(m => Math.Abs(MostAgree.Off(m, agreed)))]) / 0.6745;
        IReadOnlyList<DriveMoment> kept = [.. moments.Where(m => Math.Abs(MostAgree.Off(m, agreed)) <= Outlying * noise)];
        Fit fit = Fitted(kept.Count >= moments.Count / 2 ? kept : moments);
        fit = Sharpened(kept, fit).WithSerialCorrelation();
        double warming = Warming * fit.Parameters[0];
        double[] sizes = [warming, warming * kept.Average(m => m.WindingCurrent) / kept.Average(m => m.Speed)];
        Measured Parameter(int k) => Measured.Of(fit.Parameters[k], new Input("scatter of the samples", 0, fit.Uncertainty(k), fit.DegreesOfFreedom), new Input("warming of the winding", 0, Math.Abs(sizes[k])));
        return new MotorFit(Parameter(1), Parameter(0), fit.Correlation(0, 1));
    }

    private static Fit Fitted(IReadOnlyList<DriveMoment> moments) => LinearFit.Solve(
        [[.. moments.Select(m => m.WindingCurrent)], [.. moments.Select(m => m.Speed)]],
        [.. moments.Select(m => m.Duty * m.Voltage)]);

    // Scatter of the current flattens the line: by its share of what the speed does not explain of the current.
    private static Fit Sharpened(IReadOnlyList<DriveMoment> moments, Fit fit)
    {
        double[] current = [.. moments.Select(m => m.WindingCurrent)], speed = [.. moments.Select(m => m.Speed)];
        double noise = Speed.SpeedSignal.NoiseOf(current, 0);
        Fit other = LinearFit.Solve([speed], current);
        double own = other.ResidualDeviation;
        if (!(own > 1.5 * noise))
            throw new NoFigureException("speed and current changed too little at held levels to tell it");
        double steeper = fit.Parameters[0] * (1 / (1 - noise * noise / (own * own)) - 1);
        return fit with { Parameters = [fit.Parameters[0] + steeper, fit.Parameters[1] - steeper * other.Parameters[0]] };
    }
}

/// <summary>What the drive did at one moment.</summary>
/// <param name="Duty">Share of the pack's voltage that the winding sees, above 0 to 1.</param>
/// <param name="Voltage">Pack, V.</param>
/// <param name="PackCurrent">Without the electronics' own draw, A.</param>
/// <param name="Speed">rad/s.</param>
public readonly record struct DriveMoment(double Time, double Duty, double Voltage, double PackCurrent, double Speed)
{
    /// <summary>A controller passes power: what the winding takes at a duty, the pack gives at duty times the current.</summary>
    public double WindingCurrent => PackCurrent / Duty;
}

using RigControl.Analysis.Fitting;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>Figures of the motor, from levels, ramps and the acceleration of a known inertia.</summary>
internal static class MotorFigures
{
    // A figure known worse than this share says nothing that a builder could decide on.
    private const double Worthless = 0.25;
    private const double ShortestStall = 0.1;

    /// <summary>Longest time that a stall is looked at, s: the winding warms and its resistance rises.</summary>
    private const double LongestStall = 1;

    /// <summary>Kv, rpm/V.</summary>
    public static Measured SpeedConstant(FigureContext context) => Worth(Fit(context).SpeedConstant);

    /// <summary>Ohm, winding and controller in a row.</summary>
    public static Measured Resistance(FigureContext context) => Worth(Fit(context).Resistance);

    /// <summary>A at the steady level with nothing on the shaft.</summary>
    public static Measured NoLoadCurrent(FigureContext context)
    {
        if ((context.Article ?? throw new NoFigureException("no article says that nothing is mounted")).Rotor is not null)
            throw new NoFigureException("with a rotor mounted its drag cannot be told from the motor's");
        if (double.IsNaN(context.Segment.HoldAt))
            throw new NoFigureException("the run never came to hold a level");
        double from = 0.5 * (context.Segment.HoldAt + context.OutputEnd);
        DriveMoment[] held = [.. DriveMoments.Of(context).Where(m => m.Time >= from)];
        if (held.Length < 20)
            throw new NoFigureException("the hold is too short for a no-load current");
        double resolution = context.Need(ChannelNames.BatteryCurrent).Resolution / held[0].Duty;
        return Settled.Of([.. held.Select(m => m.Time)], [.. held.Select(m => m.WindingCurrent)], resolution).Level;
    }

    /// <summary>A with the output on and the rotor standing, within the first second.</summary>
    public static Measured StallCurrent(FigureContext context)
    {
        Series current = context.Need(ChannelNames.BatteryCurrent), throttle = context.Need(ChannelNames.OutputThrottle);
        Series speed = context.Need(ChannelNames.RotorSpeed);
        double[] demand = PackSeries.At(throttle, current.Times), turning = PackSeries.At(speed, current.Times);
        int first = Array.FindIndex(demand, d => d > 5);
        int end = first;
        while (end >= 0 && end < current.Count && demand[end] > 5 && turning[end] == 0 && current.Times[end] - current.Times[first] <= LongestStall)
            end++;
        // A rotor that sets off was not held; one that is held still stands when the look at it ends, or when the output goes off.
        bool setOff = first < 0 || (end < current.Count && turning[end] > 0);
        if (setOff || end - first < 5 || current.Times[end - 1] - current.Times[first] < ShortestStall)
            throw new NoFigureException("the rotor was never held still with the output on");
        // The current rises within the first moments.
        int settled = first + (end - first) / 3;
        return Settled.Of(current.Times[settled..end], current.Values[settled..end], current.Resolution).Level;
    }

    /// <summary>N.m, the highest of the rise.</summary>
    public static Measured PeakTorque(FigureContext context) => Peak(breadth => TorqueCurve.Highest([.. Curve(context, breadth).Select(p => p.Torque)]));

    /// <summary>W on the shaft, the highest of the rise.</summary>
    public static Measured PeakMechanicalPower(FigureContext context) => Peak(breadth => TorqueCurve.Highest([.. Curve(context, breadth).Select(p => p.Power)]));

    /// <summary>%, shaft power over pack power, the best of the rise.</summary>
    public static Measured BestEfficiency(FigureContext context)
    {
        IReadOnlyList<TorquePoint> curve = Curve(context, TorqueCurve.Broad);
        Series power = PackSeries.Power(context.Need(ChannelNames.BatteryVoltage), context.Need(ChannelNames.BatteryCurrent));
        double[] electric = [.. curve.Select((p, k) => Mean(power, k == 0 ? p.Time - 0.01 : 0.5 * (p.Time + curve[k - 1].Time), k + 1 < curve.Count ? 0.5 * (p.Time + curve[k + 1].Time) : p.Time + 0.01))];
        double strongest = electric.Max();
        // Where next to nothing is drawn a share says nothing.
        Measured[] shares = [.. curve.Select((p, k) => (p, k)).Where(x => electric[x.k] > 0.2 * strongest).Select(x => x.p.Power.Times(100 / electric[x.k]))];
        Measured best = TorqueCurve.Highest(shares);
        return best.Value <= 100 + 2 * best.Uncertainty ? Worth(best) : throw new NoFigureException("more comes out than goes in: the declared inertia or a reading is wrong");
    }

    private static double Mean(Series series, double from, double to)
    {
        Series part = series.Between(from, to);
        return part.Count > 0 ? part.Values.Average() : 0;
    }

    private static MotorFit Fit(FigureContext context) => MotorFit.Of(DriveMoments.Of(context));

    private static Measured Worth(Measured figure) => figure.Value > 0 && figure.Uncertainty < Worthless * figure.Value
        ? figure
        : throw new NoFigureException("speed and current changed too little at held levels to tell it");

    // What a broader look takes off a peak, a narrower one may still take off in part.
    private static Measured Peak(Func<double, Measured> ofBreadth)
    {
        Measured broad = ofBreadth(TorqueCurve.Broad), narrow = ofBreadth(TorqueCurve.Broad / 2);
        return Measured.Of(narrow.Value, narrow.As("slope of the speed"), new Input("breadth of the look", 0, Math.Abs(narrow.Value - broad.Value))) with { Note = narrow.Note };
    }

    private static IReadOnlyList<TorquePoint> Curve(FigureContext context, double breadth)
    {
        double inertia = context.NeedInertia();
        SpeedSignal rise = context.Speed.Between(context.Segment.RiseAt, double.IsNaN(context.Segment.HoldAt) ? context.OutputEnd : context.Segment.HoldAt);
        if (rise.Count < 12)
            throw new NoFigureException("the spin-up holds too few speed readings");
        Physics.CoastDown drag = default;
        string note = "inertia as declared";
        try
        {
            drag = context.CoastDown.Trajectory;
        }
        catch (Exception e) when (e is NoFigureException or FitFailedException)
        {
            note += "; drag not added back, for no coast-down gives it";
        }

        return [.. TorqueCurve.Of(rise, inertia, drag, breadth).Select(p => p with { Torque = p.Torque with { Note = note } })];
    }
}

using System.Globalization;
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
    public static Measured SpeedConstant(FigureContext context) => Worth(context.Motor.SpeedConstant) with { Note = Together(context) };

    /// <summary>Kt, N.m/A: the back-EMF constant in V.s/rad (derived; what is given in W comes out in W).</summary>
    public static Measured TorqueConstant(FigureContext context) => Worth(context.Motor.EmfConstant);

    /// <summary>Ohm, winding and controller in a row.</summary>
    public static Measured Resistance(FigureContext context) => Worth(context.Motor.Resistance) with { Note = Together(context) };

    /// <summary>A at the steady level with nothing on the shaft.</summary>
    public static Measured NoLoadCurrent(FigureContext context)
    {
        if ((context.Article ?? throw new NoFigureException("no article says that nothing is mounted")).Rotor is not null)
            throw new NoFigureException("with a rotor mounted its drag cannot be told from the motor's");
        if (double.IsNaN(context.Segment.HoldAt))
            throw new NoFigureException("the run never came to hold a level");
        double from = 0.5 * (context.Segment.HoldAt + context.OutputEnd);
        DriveMoment[] held = [.. context.Moments.Where(m => m.Time >= from)];
        if (held.Length < 20)
            throw new NoFigureException("the hold is too short for a no-load current");
        double resolution = context.Need(ChannelNames.BatteryCurrent).Resolution / held[0].Duty;
        Measured level = Settled.Of([.. held.Select(m => m.Time)], [.. held.Select(m => m.WindingCurrent)], resolution).Level;
        // What the electronics draw was taken off every sample alike.
        Input idle = DriveMoments.Idle(context);
        return Measured.Of(level.Value, level.As("scatter of the samples"), idle with { Uncertainty = idle.Uncertainty / held[0].Duty });
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
    public static Measured PeakTorque(FigureContext context) => OfDrive(context, c => c.Highest.Drive);

    /// <summary>W on the shaft, the highest of the rise.</summary>
    public static Measured PeakMechanicalPower(FigureContext context) => OfDrive(context, c => c.Highest.Power);

    /// <summary>%, shaft power over pack power, the best of the rise.</summary>
    public static Measured BestEfficiency(FigureContext context)
    {
        Input inertia = context.DeclaredInertia();
        SpinUpFit fit = context.SpinUp;
        double until = double.IsNaN(context.Segment.HoldAt) ? context.OutputEnd : context.Segment.HoldAt;
        (double Time, double Speed, double Drive)[] Rise(ReadOnlySpan<double> p) => [.. fit.CurveOf(p).Where(c => c.Time <= until)];
        (double Ratio, double Scatter) Best(ReadOnlySpan<double> p) => Rise(p) is { Length: > 1 } rise ? PowerBalance.Of(context.Power, rise).Best(rise) : default;
        (double ratio, double scatter) = Best(fit.Fit.Parameters);
        if (!(ratio > 0))
            throw new NoFigureException("the pack gave too little for a share of it");
        Measured shaft = fit.OfFit(p => Best(p).Ratio);
        double share = 100 * inertia.Value * ratio;
        Measured result = Measured.Of(
            share,
            new Input("torque from the spin-up fit", 0, 100 * inertia.Value * shaft.Uncertainty, shaft.Freedom),
            inertia with { Uncertainty = 100 * ratio * inertia.Uncertainty },
            new Input("power of the pack", 0, share * scatter)) with { Note = "inertia as declared" };
        return share <= 100 + 2 * result.Uncertainty ? Worth(result) : throw new NoFigureException("more comes out than goes in: the declared inertia or a reading is wrong");
    }

    private static Measured OfDrive(FigureContext context, Func<FigureContext, Measured> highest)
    {
        Input inertia = context.DeclaredInertia();
        return highest(context).Times(inertia) with { Note = context.SpinUp.Model.Drag.Slowing(1) > 0 ? "inertia as declared" : "inertia as declared; drag not added back, for no coast-down gives it" };
    }

    // Of Kv and the resistance, which is what matters to whoever computes with both; the back-EMF constant has the other sign.
    private static string Together(FigureContext context) =>
        string.Create(CultureInfo.InvariantCulture, $"correlation of speed constant and resistance {-context.Motor.Correlation:0.00}");

    private static Measured Worth(Measured figure) => figure.Value > 0 && figure.Uncertainty < Worthless * figure.Value
        ? figure
        : throw new NoFigureException("speed and current changed too little at held levels and on slow ramps to tell it");
}

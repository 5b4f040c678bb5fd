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
    private const int FewestInLook = 16;
    private const int Looked = 40;

    // Within one look the shares of the rise differ by about this much, as a survey of simulated runs shows.
    private const double OfLook = 0.01;

    /// <summary>Longest time that a stall is looked at, s: the winding warms and its resistance rises.</summary>
    private const double LongestStall = 1;

    /// <summary>Kv, rpm/V.</summary>
    public static Measured SpeedConstant(FigureContext context) => Worth(context.Motor.SpeedConstant);

    /// <summary>Ohm, winding and controller in a row.</summary>
    public static Measured Resistance(FigureContext context) => Worth(context.Motor.Resistance);

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
    public static Measured PeakTorque(FigureContext context) => OfDrive(context, power: false);

    /// <summary>W on the shaft, the highest of the rise.</summary>
    public static Measured PeakMechanicalPower(FigureContext context) => OfDrive(context, power: true);

    /// <summary>%, shaft power over pack power, the best of the rise.</summary>
    public static Measured BestEfficiency(FigureContext context)
    {
        double inertia = context.NeedInertia();
        Series power = context.Power;
        Measured highest = context.SpinUp.HighestDrive(power: true);
        (double In, double Out, int Samples)[] looks = [.. Looks(context, inertia, power)];
        double strongest = looks.Select(l => l.In).DefaultIfEmpty(0).Max();
        // Where next to nothing is drawn a share says nothing.
        (double In, double Out, int Samples) best = looks.Where(l => l.In > 0.2 * strongest).OrderByDescending(l => l.Out / l.In).FirstOrDefault();
        if (!(best.In > 0))
            throw new NoFigureException("the pack gave too little for a share of it");
        double share = 100 * best.Out / best.In;
        Measured result = Measured.Of(
            share,
            new Input("torque from the spin-up fit", 0, share * highest.Uncertainty / highest.Value, highest.Freedom),
            new Input("part of the rise that is looked at", 0, OfLook * share),
            new Input("power of the pack", 0, share * PackSeries.Noise(power) / Math.Sqrt(best.Samples) / best.In)) with { Note = "inertia as declared" };
        return share <= 100 + 2 * result.Uncertainty ? Worth(result) : throw new NoFigureException("more comes out than goes in: the declared inertia or a reading is wrong");
    }

    // Power of pack and shaft, W, over equal parts of the rise that hold a few samples each.
    private static IEnumerable<(double In, double Out, int Samples)> Looks(FigureContext context, double inertia, Series power)
    {
        IReadOnlyList<(double Time, double Speed, double Drive)> curve = context.SpinUp.Curve();
        double length = Math.Max(FewestInLook * PackSeries.Period(power), (curve[^1].Time - curve[0].Time) / Looked);
        for (double from = curve[0].Time; from + length <= curve[^1].Time; from += length)
        {
            Series part = power.Between(from, from + length);
            var shaft = curve.Where(c => c.Time >= from && c.Time < from + length).Select(c => inertia * c.Drive * c.Speed).DefaultIfEmpty(0).Average();
            if (part.Count >= FewestInLook / 2)
                yield return (part.Values.Average(), shaft, part.Count);
        }
    }

    private static Measured OfDrive(FigureContext context, bool power)
    {
        double inertia = context.NeedInertia();
        Measured drive = context.SpinUp.HighestDrive(power).Times(inertia);
        return drive with { Note = context.SpinUp.Model.Drag.Slowing(1) > 0 ? "inertia as declared" : "inertia as declared; drag not added back, for no coast-down gives it" };
    }

    private static Measured Worth(Measured figure) => figure.Value > 0 && figure.Uncertainty < Worthless * figure.Value
        ? figure
        : throw new NoFigureException("speed and current changed too little at held levels to tell it");
}

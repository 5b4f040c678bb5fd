using RigControl.Analysis.Traces;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>Figures that come from the rotor's speed.</summary>
internal static class SpeedFigures
{
    private const double RpmToRadPerSecond = 2 * Math.PI / 60;
    private const int Blocks = 10;

    /// <summary>
    /// Mean over the settled part of the hold, rpm. Its uncertainty is that of ten block means, so that neighbouring
    /// samples which hang together do not make it look better known than it is.
    /// </summary>
    public static Measured Steady(FigureContext context)
    {
        if (double.IsNaN(context.Segment.HoldAt))
            throw new NoFigureException("the run never came to hold a level");
        double to = double.IsNaN(context.Segment.ReleaseAt) ? context.Segment.EndAt : context.Segment.ReleaseAt;
        Series hold = context.Need(ChannelNames.RotorSpeed).Between(context.Segment.HoldAt, to);
        if (hold.Count < 4 * Blocks)
            throw new NoFigureException("the hold is too short for a steady speed");
        double[] settled = hold.Values[(hold.Count / 2)..];
        double[] means = [.. Enumerable.Range(0, Blocks).Select(b => Mean(settled, b))];
        double mean = means.Average();
        double spread = Math.Sqrt(means.Sum(m => (m - mean) * (m - mean)) / (Blocks - 1) / Blocks);
        return new Measured(mean, Measured.Combine(spread, Measured.OfResolution(hold.Resolution)));
    }

    /// <summary>Highest speed, rpm; known to the tachometer's resolution and to its scatter around the peak.</summary>
    public static Measured Peak(FigureContext context)
    {
        Series speed = context.Need(ChannelNames.RotorSpeed);
        int at = Array.IndexOf(speed.Values, speed.Values.Max());
        double[] around = speed.Values[Math.Max(0, at - 10)..Math.Min(speed.Count, at + 11)];
        double mean = around.Average();
        double scatter = Math.Sqrt(around.Sum(v => (v - mean) * (v - mean)) / Math.Max(1, around.Length - 1));
        return new Measured(speed.Values[at], Measured.Combine(scatter, Measured.OfResolution(speed.Resolution)));
    }

    /// <summary>First demand above stop to 90 % of the steady speed, s.</summary>
    public static Measured SpinUpTime(FigureContext context)
    {
        Measured steady = Steady(context);
        Series speed = context.Need(ChannelNames.RotorSpeed);
        double demand = context.Segment.RiseAt;
        double reached = speed.Crossing(0.9 * steady.Value, demand, rising: true)
            ?? throw new NoFigureException("the speed never reached 90 % of the steady speed");
        Series near = speed.Between(reached - 0.1, reached + 0.1);
        double slope = near.Count > 1 ? (near.Values[^1] - near.Values[0]) / (near.Times[^1] - near.Times[0]) : 0;
        double ofSteady = slope > 0 ? 0.9 * steady.Uncertainty / slope : 0;
        double ofTime = Measured.OfResolution(speed.MeanPeriod);
        return new Measured(reached - demand, Measured.Combine(ofTime, ofTime, ofSteady));
    }

    /// <summary>Stop output to the rest speed, s.</summary>
    public static Measured CoastDownTime(FigureContext context)
    {
        double from = context.Segment.ReleaseAt;
        if (double.IsNaN(from))
            throw new NoFigureException("the output was never let go");
        // The tachometer sees the last turns late: look beyond the end of the step that they ended.
        Series speed = context.Trace.Find(ChannelNames.RotorSpeed) ?? throw new NoFigureException("the record has no usable rotor.speed");
        double at = speed.Between(from, context.Segment.EndAt + 1).Crossing(context.RestSpeed, from, rising: false)
            ?? throw new NoFigureException($"the speed never fell to {context.RestSpeed:0.#} rpm");
        double ofTime = Measured.OfResolution(speed.MeanPeriod);
        return new Measured(at - from, Measured.Combine(ofTime, ofTime, PulseGap(context.RestSpeed)));
    }

    /// <summary>m/s at the peak speed.</summary>
    public static Measured TipSpeed(FigureContext context)
    {
        double radius = context.Article.Rotor?.TipRadius ?? throw new NoFigureException("the article declares no rotor");
        Measured peak = Peak(context);
        double factor = RpmToRadPerSecond * radius;
        return new Measured(peak.Value * factor, peak.Uncertainty * factor);
    }

    /// <summary>J at the peak speed: half the inertia times the angular speed squared.</summary>
    public static Measured StoredEnergy(FigureContext context)
    {
        double inertia = context.Article.Rotor?.Inertia ?? throw new NoFigureException("the article declares no inertia");
        Measured peak = Peak(context);
        double speed = peak.Value * RpmToRadPerSecond;
        return new Measured(0.5 * inertia * speed * speed, inertia * speed * peak.Uncertainty * RpmToRadPerSecond);
    }

    // Between two marks nothing is known: at the rest speed one turn lasts this long.
    private static double PulseGap(double rpm) => Measured.OfResolution(60 / rpm / 2);

    private static double Mean(double[] values, int block)
    {
        int from = values.Length * block / Blocks;
        int to = values.Length * (block + 1) / Blocks;
        return values[from..to].Average();
    }
}

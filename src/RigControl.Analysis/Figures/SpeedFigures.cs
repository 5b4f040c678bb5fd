using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>Figures that come from the rotor's speed.</summary>
internal static class SpeedFigures
{
    private const int FewestSettled = 20;

    /// <summary>Mean over the settled part of the hold, rpm.</summary>
    public static Measured Steady(FigureContext context)
    {
        if (double.IsNaN(context.Segment.HoldAt))
            throw new NoFigureException("the run never came to hold a level");
        (double from, double to) = (context.Segment.HoldAt, context.OutputEnd);
        // The first half of a hold settles: its end is what is meant.
        SpeedSignal settled = context.Speed.Between(0.5 * (from + to), to);
        if (settled.Count < FewestSettled)
            throw new NoFigureException("the hold is too short for a steady speed");
        Settled level = Settled.OfTurns(settled);
        bool noticeable = level.Drifts && Math.Abs(level.Drift.Value) * (to - from) / 2 > 0.01 * level.Level.Value;
        return level.Level with { Note = Joined(noticeable ? $"still changing by {level.Drift.Value:0.#} rpm/s" : null, context.SpeedNote) };
    }

    /// <summary>Highest speed, rpm. Where readings scatter more than their step, the highest of short means: the highest reading would be too high.</summary>
    public static Measured Peak(FigureContext context)
    {
        SpeedSignal speed = context.Speed.Between(context.Segment.RiseAt, context.Segment.EndAt);
        if (speed.Count < 3)
            throw new NoFigureException("the record has no usable rotor.speed");
        // A period is known to a time, so that fast readings scatter more than slow ones: those near the top tell the scatter there.
        double top = 0.85 * Fitting.Summary.Median([.. speed.Values.Order().TakeLast(Math.Max(3, speed.Count / 20))]);
        int[] near = [.. Enumerable.Range(0, speed.Count).Where(i => speed.Values[i] > top)];
        double[] values = [.. near.Select(i => speed.Values[i])];
        Measured highest = Highest.Of([.. near.Select(i => speed.Times[i])], values, SpeedSignal.NoiseOf(values, speed.Resolution), speed.Resolution);
        return highest with { Note = Joined(context.TooFast(highest.Value), context.SpeedNote) };
    }

    /// <summary>First demand above stop to 90 % of the steady speed, s.</summary>
    public static Measured SpinUpTime(FigureContext context)
    {
        double demand = context.NeedRise();
        Measured steady = context.SteadySpeed;
        SpeedSignal rising = context.Speed.Between(demand, context.OutputEnd);
        double level = 0.9 * steady.Value;
        Measured reached = LocalFit.Crossing(rising, level, demand, rising: true, 0.05)
            ?? throw new NoFigureException("the speed never reached 90 % of the steady speed");
        double later = (LocalFit.Crossing(rising, 1.01 * level, demand, rising: true, 0.05) ?? reached).Value;
        double slope = later > reached.Value ? 0.01 * level / (later - reached.Value) : double.PositiveInfinity;
        return Measured.Of(
            reached.Value - demand + context.Segment.RiseStep / 2,
            new Input("speed around 90 %", 0, reached.Uncertainty, reached.Freedom),
            new Input("steady speed", 0, 0.9 * steady.Uncertainty / slope, steady.Freedom),
            new Input("moment of the demand", 0, Measured.OfResolution(context.Segment.RiseStep), Shape: Shape.Rectangular));
    }

    /// <summary>Time constant of the approach to the steady speed, s: the mean over the rise, during which the winding warms.</summary>
    public static Measured TimeConstant(FigureContext context) => context.SpinUp.MeanTimeConstant;

    /// <summary>Stop output to the rest speed, s.</summary>
    public static Measured CoastDownTime(FigureContext context)
    {
        double from = context.NeedRelease();
        SpeedSignal speed = context.Speed.Between(from, context.CoastEnd);
        double[] readings = context.Trace.Find(ChannelNames.RotorSpeed)!.Between(from, context.CoastEnd).Values;
        if (readings is [var first, ..] && first <= context.RestSpeed)
            throw new NoFigureException($"nothing ran down: {first:0.#} rpm was read already at the stop output");
        double lowest = readings.DefaultIfEmpty(double.MaxValue).Min();
        Measured at = RestCrossing.Of(speed, context.RestSpeed, from, lowest, context.Trace.Find(ChannelNames.RotorSpeed)!.MeanPeriod)
            ?? throw new NoFigureException($"the speed never fell to {context.RestSpeed:0.#} rpm");
        return Measured.Of(
            at.Value - from + context.Segment.ReleaseStep / 2,
            new Input("speed around rest", 0, at.Uncertainty, at.Freedom),
            new Input("moment of the stop output", 0, Measured.OfResolution(context.Segment.ReleaseStep), Shape: Shape.Rectangular));
    }

    /// <summary>m/s at the peak speed.</summary>
    public static Measured TipSpeed(FigureContext context)
    {
        double radius = context.Article?.Rotor?.TipRadius ?? throw new NoFigureException("the article declares no rotor");
        return context.PeakSpeed.Times(Blocks.RpmToRadPerSecond * radius);
    }

    /// <summary>J at the peak speed: half the inertia times the angular speed squared.</summary>
    public static Measured StoredEnergy(FigureContext context)
    {
        Input inertia = context.DeclaredInertia();
        Measured peak = context.PeakSpeed.Times(Blocks.RpmToRadPerSecond);
        return Propagation.Of(w => 0.5 * w[0] * w[0], [peak.As("peak speed")]).Times(inertia) with { Note = peak.Note };
    }

    private static string? Joined(params string?[] notes)
    {
        string joined = string.Join("; ", notes.Where(n => n is not null));
        return joined.Length > 0 ? joined : null;
    }
}

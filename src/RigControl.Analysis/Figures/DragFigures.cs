using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Figures;

/// <summary>What slows the rotor: I dw/dt = −(c0 + c1 w + c2 w²), fitted to the trajectory of the coast-down.</summary>
internal static class DragFigures
{
    /// <summary>c0, N.m.</summary>
    public static Measured Constant(FigureContext context) => Term(context, context.CoastDown.Constant);

    /// <summary>c1, N.m.s.</summary>
    public static Measured Linear(FigureContext context) => Term(context, context.CoastDown.Linear);

    /// <summary>c2, N.m.s2; where the rotor is declared like a disc, beside what theory says of the air around one.</summary>
    public static Measured Quadratic(FigureContext context)
    {
        Measured term = Term(context, context.CoastDown.Quadratic);
        return BesideDisc(context, term) is { } beside ? term with { Note = term.Note is null ? beside : $"{term.Note}; {beside}" } : term;
    }

    // A disc has half of mass times radius squared, and a little more or less with a hub or holes; a bar has a third, a ring all of it.
    private static readonly (double From, double To) LikeDisc = (0.4, 0.7);

    // The theory's power of the speed lies between 1.5 and 1.8, so that the two meet at one speed only: the fastest that was seen.
    private static string? BesideDisc(FigureContext context, Measured term)
    {
        if (context.Article?.Rotor is not { } rotor)
            return null;
        double shape = rotor.Inertia / (rotor.Mass * rotor.TipRadius * rotor.TipRadius);
        if (!(shape >= LikeDisc.From && shape <= LikeDisc.To))
            return null;
        double speed = context.CoastDown.Trajectory.Initial, disc = Physics.Windage.Torque(Physics.Air.AtTwentyDegrees, rotor.TipRadius, speed);
        return FormattableString.Invariant(
            $"at {speed / Blocks.RpmToRadPerSecond:0} rpm {term.Value * speed * speed / disc:0.##} times the air drag of a smooth disc of {1000 * rotor.TipRadius:0.#} mm radius, free in air of 20 degC (theory)");
    }

    /// <summary>rpm at the stated time after the stop output.</summary>
    public static Measured SpeedAfter(FigureContext context) => SpeedThen(context).Times(1 / Blocks.RpmToRadPerSecond);

    /// <summary>J at the stated time after the stop output.</summary>
    public static Measured EnergyAfter(FigureContext context)
    {
        Input inertia = context.DeclaredInertia();
        return Propagation.Of(w => 0.5 * w[0] * w[0], [SpeedThen(context).As("speed")]).Times(inertia);
    }

    private static Measured SpeedThen(FigureContext context)
    {
        double after = context.Asked.After ?? throw new NoFigureException("no time after the stop output is stated");
        double from = context.NeedRelease();
        double last = context.Speed.Between(from, context.CoastEnd).Times.DefaultIfEmpty(from).Last();
        if (from + after > last)
            throw new NoFigureException($"the speed is recorded only up to {last - from:0.##} s after the stop output");
        // The stop output came at some moment of the step before the first sample that shows it.
        double earlier = context.Segment.ReleaseStep / 2;
        Measured speed = context.CoastDown.SpeedAt(after - earlier);
        double moment = Measured.OfResolution(context.Segment.ReleaseStep) * context.CoastDown.Trajectory.Slowing(speed.Value);
        return Measured.Of(speed.Value, speed.As("coast-down fit"), new Input("moment of the stop output", 0, moment, Shape: Shape.Rectangular));
    }

    private static Measured Term(FigureContext context, DragTerm term)
    {
        Input inertia = context.DeclaredInertia();
        Measured value = term.Value ?? throw new NoFigureException(term.Reason!);
        return value.Times(inertia) with { Note = context.Article?.Rotor is null ? null : "inertia as declared" };
    }
}

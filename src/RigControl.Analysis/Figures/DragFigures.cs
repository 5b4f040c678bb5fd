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

    /// <summary>c2, N.m.s2.</summary>
    public static Measured Quadratic(FigureContext context) => Term(context, context.CoastDown.Quadratic);

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
        double after = context.After ?? throw new NoFigureException("no time after the stop output is stated");
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

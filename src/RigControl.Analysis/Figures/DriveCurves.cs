using RigControl.Analysis.Fitting;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Pictures;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Figures;

/// <summary>
/// Torque, mechanical power and efficiency against speed, from the acceleration of the declared inertia with its drag added back, and electrical
/// power against throttle. Unlike a picture's band, an interval here counts how well the inertia is declared to be known.
/// </summary>
public static class DriveCurves
{
    private const string Rise = "spin-up fit times declared inertia, drag of the coast-down added back";

    private static readonly (DriveCurve Curve, Func<FigureContext, IEnumerable<CurvePoint>> Compute)[] Kinds =
    [
        (new("torque", "N.m", "speed", "rpm", 0, Rise), c => OfDrive(c, _ => 1)),
        (new("mechanical-power", "W", "speed", "rpm", 0, Rise), c => OfDrive(c, speed => speed)),
        (new("efficiency", "%", "speed", "rpm", 0, Rise + "; over the pack's power"), Efficiency),
        (new("electrical-power", "W", "throttle", "%", 0, "mean of the second half of each level held"), c => LevelPower.Of(c).Select(l => Curves.Point(l.Throttle, l.Power))),
    ];

    /// <summary>Every curve of every repeat, or the reason why there is none.</summary>
    /// <param name="input">As for the figures.</param>
    public static IReadOnlyList<DriveCurve> Of(FigureInput input) => [.. input.Trace.Segments.Select(s => new FigureContext(input, s)).SelectMany(c => Kinds.Select(k => Of(c, k.Curve, k.Compute)))];

    private static DriveCurve Of(FigureContext context, DriveCurve curve, Func<FigureContext, IEnumerable<CurvePoint>> compute)
    {
        curve = curve with { Repeat = context.Segment.Repeat };
        try
        {
            return curve with { Points = [.. compute(context)] };
        }
        catch (Exception e) when (e is NoFigureException or FitFailedException)
        {
            return curve with { Note = e.Message };
        }
    }

    private static IEnumerable<CurvePoint> OfDrive(FigureContext context, Func<double, double> times)
    {
        Input inertia = context.DeclaredInertia();
        double[] speeds = RiseCurves.Speeds(context);
        return speeds.Zip(RiseCurves.Drive(context, speeds), (s, d) => Curves.Point(s / Blocks.RpmToRadPerSecond, d.Times(times(s)).Times(inertia)));
    }

    private static IEnumerable<CurvePoint> Efficiency(FigureContext context)
    {
        Input inertia = context.DeclaredInertia();
        double[] speeds = RiseCurves.Speeds(context);
        return speeds.Zip(RiseCurves.Efficiency(context, speeds)).Where(p => double.IsFinite(p.Second.Uncertainty))
            .Select(p => Curves.Point(p.First / Blocks.RpmToRadPerSecond, p.Second.Times(100).Times(inertia)));
    }
}

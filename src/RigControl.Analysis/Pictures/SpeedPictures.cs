using RigControl.Analysis.Figures;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Speed;

namespace RigControl.Analysis.Pictures;

/// <summary>What is to be seen of a rotor's speed: its rise, its run-down, and the torque that the rise shows.</summary>
internal static class SpeedPictures
{
    private const double RpmPerRad = 1 / Blocks.RpmToRadPerSecond;

    public static IEnumerable<FitPicture> SpinUp(FigureContext context)
    {
        SpinUpFit fit = context.SpinUp;
        double from = context.NeedRise(), to = fit.Curve()[^1].Time;
        SpeedSignal data = context.Speed.Between(from, to);
        double[] places = Curves.Places(Math.Max(from, fit.Curve()[0].Time), to);
        IReadOnlyList<CurvePoint> curve = Curves.Of(fit.Fit, places, t => p => fit.SpeedAt(p, t) * RpmPerRad);
        yield return Speed("spin-up", "Spin-up", data, curve, t => fit.SpeedAt(fit.Fit.Parameters, t) * RpmPerRad);
    }

    public static IEnumerable<FitPicture> CoastDown(FigureContext context)
    {
        CoastDownFit fit = context.CoastDown;
        SpeedSignal data = context.Speed.Between(fit.Origin, context.CoastEnd);
        int end = Array.FindIndex(data.Values, v => v < Math.Max(context.RestSpeed, 0.01 * data.Values.DefaultIfEmpty(0).Max()));
        data = end > 0 ? context.Speed.Between(fit.Origin, data.Times[end - 1]) : data;
        if (data.Count < 2)
            throw new NoFigureException("the coast-down holds no reading to draw");
        double[] places = Curves.Places(fit.Origin, data.Times[^1]);
        IReadOnlyList<CurvePoint> curve = Curves.Of(fit.Fit, places, t => p => CoastDownFit.With(p, fit.Kept).Speed(t - fit.Origin) * RpmPerRad);
        yield return Speed("coast-down", "Coast-down", data, curve, t => fit.Trajectory.Speed(t - fit.Origin) * RpmPerRad);
    }

    /// <summary>Torque of single stretches of the rise, beside the torque of the whole fitted rise.</summary>
    public static IEnumerable<FitPicture> Torque(FigureContext context)
    {
        double inertia = context.NeedInertia();
        SpinUpFit fit = context.SpinUp;
        IReadOnlyList<(double Time, double Speed, double Drive)> rise = fit.Curve();
        IReadOnlyList<TorquePoint> points = TorqueCurve.Of(context.Speed.Between(rise[0].Time, rise[^1].Time), inertia, fit.Model.Drag);
        // Beyond the end of the rise nothing more is told.
        double fastest = rise.Max(r => r.Speed);
        TorquePoint[] told = [.. points.Where(p => p.Speed > 0 && p.Speed <= fastest)];
        if (told.Length < 3)
            throw new NoFigureException("the rise holds too few stretches");
        double half = fit.Highest().Drive is { Value: > 0 } highest ? 1.96 * highest.Uncertainty / highest.Value : 0;
        CurvePoint[] curve = [.. rise.Where(r => r.Speed > 0.02 * fastest).OrderBy(r => r.Speed).Where((_, i) => i % 2 == 0)
            .Select(r => new CurvePoint(r.Speed * RpmPerRad, inertia * r.Drive, inertia * r.Drive * (1 - half), inertia * r.Drive * (1 + half)))];
        if (curve.Length < 2)
            throw new NoFigureException("the rise is over too soon");
        double[] x = [.. told.Select(p => p.Speed * RpmPerRad)], y = [.. told.Select(p => p.Torque.Value)];
        yield return new FitPicture("torque", "Torque against speed", "speed [rpm]", "torque [N.m]", x, y, curve, [.. x.Zip(y, (a, b) => b - Curves.At(curve, a))]);
    }

    private static FitPicture Speed(string name, string title, SpeedSignal data, IReadOnlyList<CurvePoint> curve, Func<double, double> at) => new(
        name, title, "time [s]", "speed [rpm]", data.Times, data.Values, curve, [.. data.Times.Zip(data.Values, (t, v) => v - at(t))]);
}

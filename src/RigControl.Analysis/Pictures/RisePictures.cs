using RigControl.Analysis.Figures;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;

namespace RigControl.Analysis.Pictures;

/// <summary>What the rise shows of the motor against speed: single stretches of the readings, beside the whole fitted rise with its band.</summary>
internal static class RisePictures
{
    private const double RpmPerRad = 1 / Blocks.RpmToRadPerSecond;

    // Of the most that the pack gave; below, a share of it says nothing.
    private const double Weak = 0.2;

    // Of the quickest gain of speed; below, the rotor as good as holds a level.
    private const double Gaining = 0.02;

    public static IEnumerable<FitPicture> Torque(FigureContext context)
    {
        double inertia = context.NeedInertia();
        double[] speeds = RiseCurves.Speeds(context);
        yield return Picture(
            "torque", "Torque against speed", "torque [N.m]", [.. Stretches(context).Select(s => (s.Speed, s.Torque.Value))], speeds, [.. RiseCurves.Drive(context, speeds).Select(d => d.Times(inertia))]);
    }

    public static IEnumerable<FitPicture> MechanicalPower(FigureContext context)
    {
        double inertia = context.NeedInertia();
        double[] speeds = RiseCurves.Speeds(context);
        yield return Picture(
            "mechanical-power", "Mechanical power against speed", "power on the shaft [W]", [.. Stretches(context).Select(s => (s.Speed, s.Power.Value))], speeds,
            [.. RiseCurves.Drive(context, speeds).Zip(speeds, (d, s) => d.Times(inertia * s))]);
    }

    public static IEnumerable<FitPicture> Efficiency(FigureContext context)
    {
        double inertia = context.NeedInertia();
        double[] speeds = RiseCurves.Speeds(context);
        (double Speed, Measured Share)[] curve = [.. speeds.Zip(RiseCurves.Efficiency(context, speeds), (s, e) => (s, e.Times(100 * inertia))).Where(e => double.IsFinite(e.Item2.Uncertainty))];
        TorquePoint[] stretches = Stretches(context);
        double[] drawn = PackSeries.At(context.Power, [.. stretches.Select(s => s.Time)]);
        (double, double)[] data = [.. stretches.Zip(drawn).Where(s => s.Second > Weak * drawn.Max()).Select(s => (s.First.Speed, 100 * s.First.Power.Value / s.Second))];
        yield return Picture("efficiency", "Efficiency against speed", "shaft power over the pack's [%]", data, [.. curve.Select(c => c.Speed)], [.. curve.Select(c => c.Share)]);
    }

    // Beyond the fastest of the fitted rise nothing is told.
    private static TorquePoint[] Stretches(FigureContext context)
    {
        double fastest = RiseCurves.Speeds(context)[^1];
        TorquePoint[] told = [.. Rising(context.SpinUp.Curve())
            .SelectMany(part => TorqueCurve.Of(context.Speed.Between(part.From, part.To), context.NeedInertia(), context.SpinUp.Model.Drag)).Where(p => p.Speed > 0 && p.Speed <= fastest)];
        return told.Length >= 3 ? told : throw new NoFigureException("the rise holds too few stretches");
    }

    // A rise in several steps stands between them: a stretch must not reach from one into the other.
    private static IEnumerable<(double From, double To)> Rising(IReadOnlyList<(double Time, double Speed, double Drive)> rise)
    {
        double[] gained = [.. rise.Zip(rise.Skip(1), (a, b) => b.Speed - a.Speed)];
        double least = Gaining * gained.Max();
        for (int from = 0, end; from < gained.Length; from = end + 1)
        {
            for (end = from; end < gained.Length && gained[end] > least;)
                end++;
            if (end > from)
                yield return (rise[from].Time, rise[end].Time);
        }
    }

    private static FitPicture Picture(string name, string title, string up, (double Speed, double Value)[] data, double[] speeds, Measured[] values)
    {
        CurvePoint[] curve = [.. speeds.Zip(values, (s, v) => Curves.Point(s * RpmPerRad, v))];
        if (curve.Length < 2 || data.Length < 3)
            throw new NoFigureException("the rise is over too soon");
        double[] x = [.. data.Select(d => d.Speed * RpmPerRad)], y = [.. data.Select(d => d.Value)];
        return new FitPicture(name, title, "speed [rpm]", up, x, y, curve, [.. x.Zip(y, (a, b) => b - Curves.At(curve, a))]);
    }
}

using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Pictures;

/// <summary>What is to be seen of motor and pack: a line each, whose slope is the constant looked for.</summary>
internal static class DrivePictures
{
    private const int MostPoints = 800;

    /// <summary>Back-EMF, which is what is left of duty times voltage behind the resistance, against speed.</summary>
    public static IEnumerable<FitPicture> Motor(FigureContext context)
    {
        MotorFit fit = context.Motor;
        DriveMoment[] moments = Thinned(context.Moments);
        double[] x = [.. moments.Select(m => m.Speed / Blocks.RpmToRadPerSecond)];
        double[] y = [.. moments.Select(m => m.Duty * m.Voltage - fit.Resistance.Value * m.WindingCurrent)];
        double slope = fit.EmfConstant.Value * Blocks.RpmToRadPerSecond, half = fit.EmfConstant.Interval95.High / fit.EmfConstant.Value - 1;
        CurvePoint[] line = [.. Curves.Places(0, x.Max()).Select(n => new CurvePoint(n, slope * n, slope * n * (1 - half), slope * n * (1 + half)))];
        yield return new FitPicture("motor", "Back-EMF against speed", "speed [rpm]", "back-EMF [V]", x, y, line, [.. x.Zip(y, (n, e) => e - slope * n)]);
    }

    /// <summary>Voltage against current, without what the charge drawn took off it; the rested voltage where no current flows, the resistance as slope.</summary>
    public static IEnumerable<FitPicture> Pack(FigureContext context)
    {
        PackFit fit = context.Pack;
        int stride = Math.Max(1, fit.Amperes.Length / MostPoints);
        double[] x = [.. fit.Amperes.Where((_, i) => i % stride == 0)], y = [.. fit.Volts.Where((_, i) => i % stride == 0)];
        IReadOnlyList<CurvePoint> curve = Curves.Of(fit.Line, Curves.Places(x.Min(), x.Max()), i => p => p[0] + p[1] * i);
        yield return new FitPicture(
            "pack", "Pack voltage, charge put back, against current", "current [A]", "voltage [V]", x, y, curve, [.. x.Zip(y, (i, u) => u - fit.Line.Parameters[0] - fit.Line.Parameters[1] * i)]);
    }

    /// <summary>Power of the pack at every level of the throttle that was held, the samples of each around their mean.</summary>
    public static IEnumerable<FitPicture> ElectricalPower(FigureContext context)
    {
        IReadOnlyList<LevelPower> levels = LevelPower.Of(context);
        if (levels.Count < 2)
            throw new NoFigureException("the throttle was held at one level only");
        CurvePoint[] line = [.. levels.Select(l => Curves.Point(l.Throttle, l.Power))];
        int stride = Math.Max(1, levels.Sum(l => l.Samples.Count) / MostPoints);
        (double X, double Y, double Off)[] data = [.. levels.SelectMany(l => l.Samples.Select(s => (l.Throttle, s, s - l.Power.Value))).Where((_, i) => i % stride == 0)];
        yield return new FitPicture(
            "electrical-power", "Electrical power against throttle", "throttle [%]", "power of the pack [W]", [.. data.Select(d => d.X)], [.. data.Select(d => d.Y)], line, [.. data.Select(d => d.Off)])
        {
            Line = "means of the levels held",
        };
    }

    private static DriveMoment[] Thinned(IReadOnlyList<DriveMoment> moments)
    {
        int stride = Math.Max(1, moments.Count / MostPoints);
        return [.. moments.Where((_, i) => i % stride == 0)];
    }
}

using RigControl.Analysis.Figures;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Pictures;

/// <summary>What is to be seen of a rotor's speed: its rise, its run-down, and its run-down with a ring on it.</summary>
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
        SpeedSignal data = RunDown(context);
        double[] places = Curves.Places(fit.Origin, data.Times[^1]);
        IReadOnlyList<CurvePoint> curve = Curves.Of(fit.Fit, places, t => p => CoastDownFit.With(p, fit.Kept).Speed(t - fit.Origin) * RpmPerRad);
        yield return Speed("coast-down", "Coast-down", data, curve, t => fit.Trajectory.Speed(t - fit.Origin) * RpmPerRad);
    }

    /// <summary>How slowly the rotor with its ring runs down, beside what the run-down of the rotor alone foretells of it with the inertia that was found.</summary>
    /// <param name="input">A trace with the rotor alone first, and then with what was added.</param>
    public static FitPicture AddedInertia(FigureInput input, Input added)
    {
        (FigureContext alone, FigureContext together) = InertiaOfTrace.Repeats(input);
        CoastDownFit heavy = together.CoastDown;
        // Refuses what says nothing.
        Inertias.AddedInertia.Of(alone.CoastDown, heavy, added);
        (Measured light, Measured slower) = Inertias.AddedInertia.Slowing(alone.CoastDown, heavy);
        Physics.CoastDown shape = alone.CoastDown.Trajectory;
        Formula At(double t) => p => new Physics.CoastDown(p[0], shape.Constant * p[2] / p[1], shape.Linear * p[2] / p[1], shape.Quadratic * p[2] / p[1]).Speed(t - heavy.Origin) * RpmPerRad;
        Input[] known = [new("speed at the stop", heavy.Trajectory.Initial, heavy.Fit.Uncertainty(0), heavy.Fit.DegreesOfFreedom), light.As("alone"), slower.As("with what is added")];
        SpeedSignal data = RunDown(together);
        CurvePoint[] curve = [.. Curves.Places(heavy.Origin, data.Times[^1]).Select(t => Curves.Point(t, Propagation.ByLaw(At(t), known)))];
        double[] expected = [.. known.Select(k => k.Value)];
        return Speed("added-inertia", "Coast-down with the added inertia", data, curve, t => At(t)(expected)) with { Line = "from the coast-down without it" };
    }

    // Down to rest; the last turns are few and long.
    private static SpeedSignal RunDown(FigureContext context)
    {
        double from = context.CoastDown.Origin;
        SpeedSignal data = context.Speed.Between(from, context.CoastEnd);
        int end = Array.FindIndex(data.Values, v => v < Math.Max(context.RestSpeed, 0.01 * data.Values.DefaultIfEmpty(0).Max()));
        data = end > 0 ? context.Speed.Between(from, data.Times[end - 1]) : data;
        return data.Count >= 2 ? data : throw new NoFigureException("the coast-down holds no reading to draw");
    }

    private static FitPicture Speed(string name, string title, SpeedSignal data, IReadOnlyList<CurvePoint> curve, Func<double, double> at) => new(
        name, title, "time [s]", "speed [rpm]", data.Times, data.Values, curve, [.. data.Times.Zip(data.Values, (t, v) => v - at(t))]);
}

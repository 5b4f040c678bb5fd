using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Motors;

/// <summary>Torque at one speed.</summary>
/// <param name="Time">s.</param>
/// <param name="Speed">rad/s.</param>
/// <param name="Torque">N.m.</param>
public sealed record TorquePoint(double Time, double Speed, Measured Torque)
{
    /// <summary>W on the shaft.</summary>
    public Measured Power => Torque.Times(Speed);
}

/// <summary>Torque against speed from the acceleration of a known inertia, with the drag that a coast-down showed added back.</summary>
public static class TorqueCurve
{
    private const int Points = 60;

    // Readings of one point, in those that lie between two points.
    private const int Broad = 4;

    /// <summary>About sixty points over the rise, each the slope of a parabola through its readings, which it shares with its neighbours.</summary>
    /// <param name="signal">Readings of the rise alone.</param>
    /// <param name="inertia">kg.m2.</param>
    /// <param name="drag">Slowing of the same rotor; the zero value adds nothing back.</param>
    public static IReadOnlyList<TorquePoint> Of(SpeedSignal signal, double inertia, CoastDown drag)
    {
        List<TorquePoint> points = [];
        int step = Math.Max(1, signal.Count / Points);
        int size = Math.Max(9, Broad * step);
        double noise = signal.Noise * Blocks.RpmToRadPerSecond;
        for (int from = 0; from + size <= signal.Count; from += step)
        {
            double[] t = signal.Times[from..(from + size)];
            double[] w = [.. signal.Values[from..(from + size)].Select(v => v * Blocks.RpmToRadPerSecond)];
            double middle = t.Average();
            Fit bend = LinearFit.Solve([[.. t.Select(_ => 1.0)], [.. t.Select(x => x - middle)], [.. t.Select(x => (x - middle) * (x - middle))]], w);
            double spread = Math.Sqrt(t.Sum(x => (x - middle) * (x - middle)));
            Measured torque = Measured.Of(
                inertia * (bend.Parameters[1] + drag.Slowing(bend.Parameters[0])),
                new Input("slope of the speed", 0, inertia * Math.Max(bend.Uncertainty(1), noise / spread), bend.DegreesOfFreedom));
            points.Add(new TorquePoint(middle, bend.Parameters[0], torque));
        }

        return points;
    }

    /// <summary>The highest of several, less what chance adds to the highest of many that are nearly as high.</summary>
    public static Measured Highest(IReadOnlyList<Measured> values)
    {
        Measured top = values.MaxBy(v => v.Value)!;
        // Neighbours share their readings.
        double rivals = values.Count(v => v.Value > top.Value - 2 * Measured.Combine(top.Uncertainty, v.Uncertainty)) / 3.0;
        double excess = rivals <= 1 ? 0 : top.Uncertainty * MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (rivals - 0.375) / (rivals + 0.25));
        return top with { Value = top.Value - excess };
    }
}

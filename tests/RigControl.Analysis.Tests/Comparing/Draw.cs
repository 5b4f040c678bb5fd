using MathNet.Numerics.Distributions;
using RigControl.Analysis.Comparing;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Comparing;

/// <summary>Values of a known truth.</summary>
internal static class Draw
{
    public static ValueGroup Group(ref SplitMix chance, int count, double mean, double scatter)
    {
        double[] values = new double[count];
        for (int i = 0; i < count; i++)
            values[i] = mean + scatter * Normal.InvCDF(0, 1, Math.Clamp(chance.Uniform(), 1e-12, 1 - 1e-12));
        return new ValueGroup(values, 0, Fresh: false);
    }
}

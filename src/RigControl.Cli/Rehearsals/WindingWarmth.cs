using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Cli.Rehearsals;

/// <summary>How warm the winding was while the output was on.</summary>
internal static class WindingWarmth
{
    /// <summary>
    /// degC, the mean over the repeats; null without a reading. The winding is hotter than the sensor on its case: by anything between nothing and
    /// what the sensor itself has risen by since the run began.
    /// </summary>
    public static Measured? Of(Trace trace)
    {
        if (trace.Find(ChannelNames.MotorTemperature) is not { } sensor)
            return null;
        double[] means = [.. trace.Segments.Where(s => s.RiseAt < s.ReleaseAt).Select(s => sensor.Between(s.RiseAt, s.ReleaseAt)).Where(s => s.Count > 0).Select(s => Summary.Mean(s.Values))];
        if (means.Length == 0)
            return null;
        double read = means.Average(), risen = Math.Max(0, read - sensor.Values[0]);
        return Measured.Of(read + risen / 2, new Input("how much hotter the winding is than its sensor", 0, Measured.OfResolution(risen), Shape: Shape.Rectangular));
    }
}

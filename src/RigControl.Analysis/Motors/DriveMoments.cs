using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Motors;

/// <summary>Gathers the moments of a repeat at which a level is held and the rotor turns.</summary>
internal static class DriveMoments
{
    // A controller follows a change of demand within this time.
    private const double Following = 0.3;
    private const double SmallestDuty = 0.05;
    private const int Most = 4000;

    /// <summary>In order of time. The throttle is taken for the duty, as it is in a one-way controller that is not limiting.</summary>
    public static IReadOnlyList<DriveMoment> Of(FigureContext context)
    {
        Series current = context.Need(ChannelNames.BatteryCurrent).Between(context.Segment.RiseAt, context.OutputEnd);
        Series voltage = context.Need(ChannelNames.BatteryVoltage), throttle = context.Need(ChannelNames.OutputThrottle);
        SpeedSignal signal = context.Speed.Between(context.Segment.RiseAt, context.OutputEnd);
        if (signal.Count < 10 || current.Count < 10)
            return [];
        Series speed = new("rpm", signal.Resolution, signal.Times, signal.Values);
        int stride = Math.Max(1, current.Count / Most);
        double[] times = [.. Enumerable.Range(0, current.Count).Where(i => i % stride == 0).Select(i => current.Times[i]).Where(t => t > signal.Times[0] && t < signal.Times[^1])];
        double[] now = PackSeries.At(throttle, times), before = PackSeries.At(throttle, [.. times.Select(t => t - Following)]);
        double[] u = PackSeries.At(voltage, times), i = PackSeries.At(current, times), n = PackSeries.At(speed, times);
        double idle = Idle(context).Value;
        double[] heat = Heat(current, throttle, idle);
        double[] gathered = PackSeries.At(new Series("A2.s", 0, current.Times, heat), times);
        return [.. Enumerable.Range(0, times.Length)
            .Where(k => now[k] >= 100 * SmallestDuty && Math.Abs(now[k] - before[k]) <= 0.1)
            .Select(k => new DriveMoment(times[k], now[k] / 100, u[k], i[k] - idle, n[k] * Blocks.RpmToRadPerSecond) { Heat = gathered[k] })];
    }

    /// <summary>Square of the winding current summed over time, A2.s, at every sample of the pack's current.</summary>
    /// <param name="idle">What the electronics draw of it, A.</param>
    public static double[] Heat(Series current, Series throttle, double idle)
    {
        double[] demand = PackSeries.At(throttle, current.Times), heat = new double[current.Count];
        for (int k = 1; k < heat.Length; k++)
        {
            double winding = demand[k] >= 100 * SmallestDuty ? 100 * (current.Values[k] - idle) / demand[k] : 0;
            heat[k] = heat[k - 1] + winding * winding * (current.Times[k] - current.Times[k - 1]);
        }

        return heat;
    }

    /// <summary>What controller and receiver draw with the output at stop, A: from the moments before the rise.</summary>
    public static Input Idle(FigureContext context)
    {
        double rise = context.Segment.RiseAt - context.Segment.RiseStep;
        Series? before = context.Trace.Find(ChannelNames.BatteryCurrent)?.Between(rise - 1, rise - 0.02);
        if (before is not { Count: >= 5 })
            return new Input("draw of the electronics", 0, 0);
        // A median is known worse than a mean by the root of half of pi, and stands on one of the steps.
        double scatter = PackSeries.Noise(before) * Math.Sqrt(Math.PI / 2 / before.Count);
        return new Input("draw of the electronics", Math.Max(0, Summary.Median(before.Values)), Measured.Combine(scatter, Measured.OfResolution(before.Resolution)));
    }
}

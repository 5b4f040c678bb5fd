using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Motors;

/// <summary>Gathers the moments of a repeat at which a level is held, or reached by an even ramp that is slow enough, and the rotor turns.</summary>
internal static class DriveMoments
{
    // A controller follows a change of demand within this time.
    private const double Following = 0.3;
    private const double SmallestDuty = 0.05;

    // A controller acts on a demand at once or as late as this, s: a pulse, its filter and its own loop (common practice, no source).
    private const double LongestLag = 0.05;

    // Of the demand: where it may lag by more, a ramp says too little.
    private const double MostLag = 0.01;

    // Of full throttle, %: a demand that is off by less is steady.
    private const double Steady = 0.1;
    private const int Most = 4000;

    /// <summary>
    /// In order of time. The throttle is taken for the duty, as it is in a one-way controller that is not limiting; on a ramp, for what it was
    /// half of the longest lag before.
    /// </summary>
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
        double[] now = PackSeries.At(throttle, times), before = Earlier(throttle, times, Following), middle = Earlier(throttle, times, Following / 2);
        double[] u = PackSeries.At(voltage, times), i = PackSeries.At(current, times), n = PackSeries.At(speed, times);
        double idle = Idle(context).Value;
        double[] heat = Heat(current, throttle, idle);
        double[] gathered = PackSeries.At(new Series("A2.s", 0, current.Times, heat), times);
        return [.. Enumerable.Range(0, times.Length)
            .Where(k => now[k] >= 100 * SmallestDuty && IsEven(now[k], middle[k], before[k]))
            .Select(k => (At: k, Lag: LagOf(now[k], before[k])))
            .Where(m => Math.Abs(m.Lag) <= MostLag * now[m.At])
            .Select(m => new DriveMoment(times[m.At], (now[m.At] - m.Lag / 2) / 100, u[m.At], i[m.At] - idle, n[m.At] * Blocks.RpmToRadPerSecond)
                { Heat = gathered[m.At], Lag = Measured.OfResolution(m.Lag / now[m.At]) })];
    }

    // Held, or on its way at one rate for as long as a controller needs to follow.
    private static bool IsEven(double now, double middle, double before) =>
        Math.Abs(now - before) <= Steady || (middle - before) * (now - middle) > 0 && Math.Abs(now - 2 * middle + before) <= Steady;

    // What a controller may be behind the demand, %; nothing while a level is held.
    private static double LagOf(double now, double before) => Math.Abs(now - before) <= Steady ? 0 : (now - before) / Following * LongestLag;

    private static double[] Earlier(Series throttle, double[] times, double by) => PackSeries.At(throttle, [.. times.Select(t => t - by)]);

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

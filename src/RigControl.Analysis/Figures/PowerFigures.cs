using RigControl.Analysis.Traces;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>Figures that come from the pack's voltage and current.</summary>
internal static class PowerFigures
{
    /// <summary>Highest sample, A.</summary>
    public static Measured PeakCurrent(FigureContext context) => Extreme(context.Need(ChannelNames.BatteryCurrent), highest: true);

    /// <summary>Lowest sample, V.</summary>
    public static Measured MinimumVoltage(FigureContext context) => Extreme(context.Need(ChannelNames.BatteryVoltage), highest: false);

    /// <summary>Highest product of current and the voltage of the same moment, W.</summary>
    public static Measured PeakPower(FigureContext context)
    {
        Series power = Power(context.Need(ChannelNames.BatteryVoltage), context.Need(ChannelNames.BatteryCurrent));
        return new Measured(power.Values.Max(), Scatter(power));
    }

    /// <summary>A over the time with output on.</summary>
    public static Measured MeanCurrent(FigureContext context)
    {
        Series current = context.Need(ChannelNames.BatteryCurrent).Between(context.Segment.RiseAt, OutputEnd(context));
        if (current.Count < 2)
            throw new NoFigureException("the output was on too briefly");
        double seconds = current.Times[^1] - current.Times[0];
        return new Measured(Integral(current) / seconds, Measured.Combine(Scatter(current) / Math.Sqrt(current.Count), Measured.OfResolution(current.Resolution)));
    }

    /// <summary>Ah over the whole run, pack side, by the trapezoidal rule.</summary>
    public static Measured ChargeUsed(Trace trace) => OverRun(trace.Find(ChannelNames.BatteryCurrent), "battery.current");

    /// <summary>Wh over the whole run, pack side, by the trapezoidal rule.</summary>
    public static Measured EnergyUsed(Trace trace)
    {
        Series? voltage = trace.Find(ChannelNames.BatteryVoltage);
        Series? current = trace.Find(ChannelNames.BatteryCurrent);
        return OverRun(voltage is null || current is null ? null : Power(voltage, current), "battery.voltage and battery.current");
    }

    private static Measured OverRun(Series? series, string channel)
    {
        if (series is not { Count: > 1 })
            throw new NoFigureException($"the record has no usable {channel}");
        // Each sample's own scatter averages out; an offset does not, and half a step of resolution is the least it can be.
        double seconds = series.Times[^1] - series.Times[0];
        double random = Scatter(series) * series.MeanPeriod * Math.Sqrt(series.Count);
        double offset = Measured.OfResolution(series.Resolution) * seconds;
        return new Measured(Integral(series) / 3600, Measured.Combine(random, offset) / 3600);
    }

    private static Measured Extreme(Series series, bool highest) =>
        new(highest ? series.Values.Max() : series.Values.Min(), Measured.Combine(Scatter(series), Measured.OfResolution(series.Resolution)));

    private static double OutputEnd(FigureContext context) =>
        double.IsNaN(context.Segment.ReleaseAt) ? context.Segment.EndAt : context.Segment.ReleaseAt;

    private static double Integral(Series series)
    {
        double sum = 0;
        for (int i = 1; i < series.Count; i++)
            sum += (series.Values[i] + series.Values[i - 1]) / 2 * (series.Times[i] - series.Times[i - 1]);
        return sum;
    }

    // From differences of neighbours, so that a ramp is not taken for scatter: variance = sum of squares / 2 (n - 1).
    private static double Scatter(Series series)
    {
        double sum = 0;
        for (int i = 1; i < series.Count; i++)
            sum += (series.Values[i] - series.Values[i - 1]) * (series.Values[i] - series.Values[i - 1]);
        return series.Count < 2 ? 0 : Math.Sqrt(sum / (2 * (series.Count - 1)));
    }

    // Voltage changes slowly beside current: each current sample takes the latest voltage.
    private static Series Power(Series voltage, Series current)
    {
        double[] power = new double[current.Count];
        int v = 0;
        for (int i = 0; i < current.Count; i++)
        {
            while (v + 1 < voltage.Count && voltage.Times[v + 1] <= current.Times[i])
                v++;
            power[i] = voltage.Values[v] * current.Values[i];
        }

        return new Series("W", current.Resolution * voltage.Values.Max(), current.Times, power);
    }
}

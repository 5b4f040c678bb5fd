using RigControl.Analysis.Power;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>Figures that come from the pack's voltage and current.</summary>
internal static class PowerFigures
{
    /// <summary>Highest sample, A.</summary>
    public static Measured PeakCurrent(FigureContext context) => Extreme.Of(context.Need(ChannelNames.BatteryCurrent), highest: true);

    /// <summary>Lowest sample, V.</summary>
    public static Measured MinimumVoltage(FigureContext context) => Extreme.Of(context.Need(ChannelNames.BatteryVoltage), highest: false);

    /// <summary>Highest product of current and the voltage of the same moment, W.</summary>
    public static Measured PeakPower(FigureContext context) =>
        Extreme.Of(PackSeries.Power(context.Need(ChannelNames.BatteryVoltage), context.Need(ChannelNames.BatteryCurrent)), highest: true);

    /// <summary>A over the time with output on.</summary>
    public static Measured MeanCurrent(FigureContext context)
    {
        Series current = context.Need(ChannelNames.BatteryCurrent).Between(context.Segment.RiseAt, context.OutputEnd);
        if (current.Count < 2)
            throw new NoFigureException("the output was on too briefly");
        return Integral.Of(current).Times(1 / (current.Times[^1] - current.Times[0]));
    }

    /// <summary>Ohm of the whole pack, from the steps of its load.</summary>
    public static Measured PackResistance(FigureContext context)
    {
        Measured resistance = PackFit.Of(context.Need(ChannelNames.BatteryVoltage), context.Need(ChannelNames.BatteryCurrent)).Resistance;
        return resistance.Value > 2 * resistance.Uncertainty ? resistance : throw new NoFigureException("the voltage did not follow the current");
    }

    /// <summary>Ah over the whole run, pack side.</summary>
    public static Measured ChargeUsed(FigureInput input) => OverRun(input.Trace.Find(ChannelNames.BatteryCurrent), ChannelNames.BatteryCurrent);

    /// <summary>Wh over the whole run, pack side.</summary>
    public static Measured EnergyUsed(FigureInput input)
    {
        Series? voltage = input.Trace.Find(ChannelNames.BatteryVoltage);
        Series? current = input.Trace.Find(ChannelNames.BatteryCurrent);
        return OverRun(
            voltage is null || current is null ? null : PackSeries.Power(voltage, current),
            voltage is null ? ChannelNames.BatteryVoltage : ChannelNames.BatteryCurrent);
    }

    /// <summary>Share of the declared capacity that the run used, %.</summary>
    public static Measured BatteryShare(FigureInput input)
    {
        double capacity = input.Article?.Pack?.Capacity ?? throw new NoFigureException("the article declares no pack");
        return ChargeUsed(input).Times(100 / capacity);
    }

    private static Measured OverRun(Series? series, string channel) => series is { Count: > 1 }
        ? Integral.Of(series).Times(1.0 / 3600)
        : throw new NoFigureException($"the record has no usable {channel}");
}

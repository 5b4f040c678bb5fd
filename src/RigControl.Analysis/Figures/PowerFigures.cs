using RigControl.Analysis.Power;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>Figures that come from the pack's voltage and current.</summary>
internal static class PowerFigures
{
    /// <summary>Highest, A.</summary>
    public static Measured PeakCurrent(FigureContext context) => Extreme.Of(context.Need(ChannelNames.BatteryCurrent), highest: true);

    /// <summary>Lowest, V.</summary>
    public static Measured MinimumVoltage(FigureContext context) => Extreme.Of(context.Need(ChannelNames.BatteryVoltage), highest: false);

    /// <summary>Highest product of current and the voltage of the same moment, W.</summary>
    public static Measured PeakPower(FigureContext context) =>
        Extreme.Of(context.Power, highest: true);

    /// <summary>A over the time with output on.</summary>
    public static Measured MeanCurrent(FigureContext context)
    {
        Segment segment = context.Segment;
        double from = segment.RiseAt - segment.RiseStep / 2, to = context.OutputEnd - segment.ReleaseStep / 2;
        Series current = context.Trace.Find(ChannelNames.BatteryCurrent)?.Between(double.IsNaN(from) ? double.MinValue : from, to)
            ?? throw new NoFigureException($"the record has no usable {ChannelNames.BatteryCurrent}");
        if (current.Count < 2)
            throw new NoFigureException("the output was on too briefly");
        from = double.IsNaN(from) ? current.Times[0] : from;
        Measured charge = Integral.Of(current);
        double whole = charge.Value + current.Values[0] * (current.Times[0] - from) + current.Values[^1] * (to - current.Times[^1]);
        double mean = whole / (to - from);
        double Moment(double step, double value) => Measured.OfResolution(step) * Math.Abs(value - mean) / (to - from);
        return Measured.Of(
            mean,
            charge.Times(1 / (to - from)).As("samples"),
            new Input("moment of the rise", 0, Moment(segment.RiseStep, current.Values[0])),
            new Input("moment of the stop output", 0, Moment(segment.ReleaseStep, current.Values[^1]))) with { Note = charge.Note };
    }

    /// <summary>Ohm of the whole pack, from the steps of its load.</summary>
    public static Measured PackResistance(FigureContext context)
    {
        Measured resistance = context.Pack.Resistance;
        return resistance.Value > 2 * resistance.Uncertainty ? resistance : throw new NoFigureException("the voltage did not follow the current");
    }

    /// <summary>V from the rested voltage at the beginning of the repeat to the lowest.</summary>
    public static Measured VoltageSag(FigureContext context)
    {
        Measured rested = context.Pack.Rested, lowest = MinimumVoltage(context);
        double sag = rested.Value - lowest.Value;
        // What lifts the lowest readings lowers the rested voltage, and both take from the sag.
        Input shared = new("readings that both come from", 0, Math.Sqrt(Math.Max(0, -2 * context.Pack.SharedWithLowest)));
        Measured result = Measured.Of(sag, rested.As("rested voltage"), lowest.As("lowest voltage"), shared);
        // The lowest reaches further down than up, since a short dip may hide in the scatter; so may the sag, upwards.
        (double low, double high) = lowest.Interval95;
        double own = Coverage.Factor95(rested.Freedom) * Measured.Combine(rested.Uncertainty, shared.Uncertainty);
        return sag > 2 * result.Uncertainty
            ? result with
            {
                Asymmetric = (sag - Measured.Combine(own, high - lowest.Value), sag + Measured.Combine(own, lowest.Value - low)),
                Note = FormattableString.Invariant($"from {rested.Value:0.00} V; lowest {lowest.Note}"),
            }
            : throw new NoFigureException("the voltage did not follow the current");
    }

    /// <summary>Ah over the whole run, pack side.</summary>
    public static Measured ChargeUsed(FigureInput input) => OverRun(input.Trace.Find(ChannelNames.BatteryCurrent), ChannelNames.BatteryCurrent);

    /// <summary>Highest, V: of the whole run, since a pack stands highest before it is loaded.</summary>
    public static Measured PeakVoltage(FigureInput input) => input.Trace.Find(ChannelNames.BatteryVoltage) is { Count: > 1 } voltage
        ? Extreme.Of(voltage, highest: true)
        : throw new NoFigureException($"the record has no usable {ChannelNames.BatteryVoltage}");

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
        // As well known as the capacity that it is divided by.
        return ChargeUsed(input).Times(input.Declared("capacity", 100 / capacity));
    }

    private static Measured OverRun(Series? series, string channel) => series is { Count: > 1 }
        ? Integral.Of(series).Times(1.0 / 3600)
        : throw new NoFigureException($"the record has no usable {channel}");
}

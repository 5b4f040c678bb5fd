using RigControl.Analysis.Fitting;
using RigControl.Analysis.Heat;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>Figures that come from temperatures.</summary>
internal static class HeatFigures
{
    private const int MostSamples = 300;

    // Samples of the surroundings from which a level and its drift are told.
    private const int FewestOfRoom = 20;

    // Samples whose line tells the first temperature.
    private const int Quieted = 8;

    /// <summary>Highest minus first, K, over the repeat; what the highest means for mount and hand is noted with it.</summary>
    public static Measured Rise(FigureContext context, string channel)
    {
        Series series = context.Need(channel);
        double noise = PackSeries.Noise(series);
        (double first, double firstKnown) = First(series, noise);
        Measured highest = Highest.Of(series.Times, series.Values, noise, series.Resolution);
        return Measured.Of(highest.Value - first, new Input("first sample", 0, firstKnown), new Input("highest sample", 0, highest.Uncertainty, highest.Freedom))
            with { Note = HeatGuidance.Of(channel, highest.Value) };
    }

    // Samples that scatter are quieted by a line through the first few, none of which is much warmer than the first.
    private static (double Value, double Uncertainty) First(Series series, double noise)
    {
        if (noise <= series.Resolution || series.Count < 2 * Quieted)
            return (series.Values[0], noise);
        double[] t = [.. series.Times[..Quieted].Select(x => x - series.Times[0])];
        Fit line = LinearFit.Solve([[.. t.Select(_ => 1.0)], t], series.Values[..Quieted]);
        double unit = Math.Sqrt(line.Covariance[0, 0]) / Math.Max(line.ResidualDeviation, 1e-12);
        return (line.Parameters[0], unit * noise);
    }

    /// <summary>Time constant, s, of a part cooling after the output went off, up to the next rise.</summary>
    public static Measured TimeConstant(FigureContext context, string channel)
    {
        (CoolingFit fit, _, _) = Cooled(context, channel);
        if (!(fit.TimeConstant.Value > 0) || fit.TimeConstant.Uncertainty > 0.5 * fit.TimeConstant.Value)
            throw new NoFigureException("the cooling is recorded for too short a time");
        return fit.TimeConstant with { Note = fit.Quick is { } quick ? $"slow one of two lumps; the quick one: {quick.Value:0.#} s" : null };
    }

    /// <summary>The cooling of a part after the output went off, up to the next rise, and the samples that were fitted.</summary>
    public static (CoolingFit Fit, double[] Times, double[] Values) Cooled(FigureContext context, string channel)
    {
        double from = context.NeedRelease();
        double next = context.Trace.Segments.Where(s => s.RiseAt > from).Select(s => s.RiseAt).DefaultIfEmpty(double.MaxValue).Min();
        // What is warmed from inside still rises after the output went off: cooling begins at its highest.
        Series cooling = (context.Trace.Find(channel) ?? throw new NoFigureException($"the record has no usable {channel}")).Picked(from, next, MostSamples, fromHighest: true);
        return (CoolingFit.Of(cooling.Times, cooling.Values, cooling.Resolution, Ambient(context, from, next)), cooling.Times, cooling.Values);
    }

    /// <summary>degC of the surroundings over a stretch, where they were recorded.</summary>
    public static Input? Ambient(FigureContext context, double from, double to)
    {
        if (context.Trace.Find(ChannelNames.AmbientTemperature) is not { } recorded)
            return null;
        Room room = context.Once(FormattableString.Invariant($"surroundings from {from} to {to}"), () => RoomOf(recorded.Between(from, to)));
        return room.Temperature;
    }

    private static Room RoomOf(Series ambient) => new(ambient.Count > 1 ? Level(ambient) : null);

    private static Input Level(Series ambient)
    {
        if (ambient.Count < FewestOfRoom)
            return new Input("ambient", Summary.Mean(ambient.Values), Measured.Combine(Summary.Deviation(ambient.Values), Measured.OfResolution(ambient.Resolution)));
        // Scatter averages out over the samples; where the room warms or cools meanwhile, the part saw any of it.
        Settled settled = Settled.Of(ambient.Times, ambient.Values, ambient.Resolution);
        double drifted = settled.Drifts ? Measured.OfResolution(settled.Drift.Value * (ambient.Times[^1] - ambient.Times[0])) : 0;
        return new Input("ambient", settled.Level.Value, Measured.Combine(settled.Level.Uncertainty, drifted));
    }

    /// <summary>degC of the surroundings; null where too little of them was recorded.</summary>
    private sealed record Room(Input? Temperature);
}

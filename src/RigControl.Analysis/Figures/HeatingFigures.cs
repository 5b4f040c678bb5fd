using RigControl.Analysis.Heat;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Power;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>
/// Figures of parts that a current heats: by the square of it, over the repeat and the cooling after it. A motor is warmed by what it loses at
/// no load as well, as its article declares it.
/// </summary>
internal static class HeatingFigures
{
    private const int MostSamples = 300;

    // A figure known worse than this share says nothing that a builder could decide on.
    private const double Worthless = 0.3;

    /// <summary>K/W of motor or pack, from the heat in its resistance to the surroundings.</summary>
    public static Measured Resistance(FigureContext context, string channel)
    {
        if (channel == ChannelNames.MotorTemperature)
            return OfMotor(context);
        Measured ohm = channel == ChannelNames.BatteryTemperature ? context.PackResistance : throw new NoFigureException("no resistance is known whose heat warms it");
        (HeatingFit fit, string? surroundings) = BySquares(context, channel);
        return Worth(Propagation.Of(x => x[0] / x[1], [fit.Gain.As("heating per square of the current"), ohm.As("resistance")])) with { Note = surroundings };
    }

    private static Measured OfMotor(FigureContext context)
    {
        Series idle = IdleLoss(context);
        WindingLoss winding = Winding(context);
        (HeatingFit fit, string? surroundings) = ByWatts(context, winding, idle);
        // Each loss counts by its part of the whole heat.
        double heat = winding.Ohm.Value * winding.Squares.Values[^1], share = heat / (heat + idle.Values[^1]);
        Input declared = context.Input.Declared("no-load-current", context.Article!.Motor!.NoLoadCurrent);
        double known = declared.Value > 0 ? declared.Uncertainty / declared.Value : 0;
        double gain = fit.Gain.Value;
        return Worth(Measured.Of(
            gain, fit.Gain.As("heating per watt"), new Input(winding.Ohm.Note is null ? "resistance" : SharedPart.Declared("winding-resistance"), 0, gain * share * winding.Ohm.Uncertainty / winding.Ohm.Value, winding.Ohm.Freedom),
            new Input(SharedPart.HotterWinding, 0, gain * share * winding.Hidden), declared with { Value = 0, Uncertainty = gain * (1 - share) * known }))
            with { Note = Joined("losses at no load as declared", winding.Ohm.Note is { } note ? Joined(note, surroundings) : surroundings) };
    }

    /// <summary>The heating of a part and its cooling, to look at: what its thermal resistance comes from, else the square of the current.</summary>
    public static HeatingFit Seen(FigureContext context, string channel) => channel == ChannelNames.MotorTemperature && context.Article?.Motor is not null
        ? ByWatts(context, Winding(context), IdleLoss(context)).Fit
        : BySquares(context, channel).Fit;

    /// <summary>s from the surroundings to the stated temperature under the repeat's mean square of the current.</summary>
    public static Measured TimeToLimit(FigureContext context, string channel)
    {
        double limit = Limit(context, channel);
        (HeatingFit fit, string? note) = BySquares(context, channel);
        double load = MeanSquare(context);
        double around = context.Asked.Ambient ?? fit.Ambient;
        return Worth(fit.TimeToLimit(limit, load, around)) with { Note = Joined(FormattableString.Invariant($"to {limit:0.#} degC from {around:0.#} degC{Stated(context)} at {Math.Sqrt(load):0.0} A"), note) };
    }

    /// <summary>A of the pack under which the part stays below the stated temperature for ever; how long it lives is another question.</summary>
    public static Measured ContinuousCurrent(FigureContext context, string channel)
    {
        double limit = Limit(context, channel);
        (HeatingFit fit, string? note) = BySquares(context, channel);
        double around = context.Asked.Ambient ?? fit.Ambient;
        // A current is known twice as well as its square; what is worthless by the law is so by trials, which take their time.
        Worth(fit.Gain with { Uncertainty = fit.Gain.Uncertainty / 2 });
        return Worth(fit.ContinuousCurrent(limit, around))
            with { Note = Joined(FormattableString.Invariant($"below {limit:0.#} degC at surroundings of {around:0.#} degC{Stated(context)}, its temperature alone: not how long it lives"), note) };
    }

    // One held level tells no resistance; then it is the article's, of a cold winding.
    private static WindingLoss Winding(FigureContext context)
    {
        Series squares = WindingSquares(context);
        try
        {
            return new WindingLoss(context.Motor.Resistance, squares, 0);
        }
        catch (NoFigureException) when (context.Article?.Motor is { } motor)
        {
            Input ohm = context.Input.Declared("winding-resistance", motor.WindingResistance);
            return Warmed(Measured.Of(ohm.Value, ohm) with { Note = "winding resistance as declared, warmed with its sensor" }, squares, Whole(context, ChannelNames.MotorTemperature));
        }
    }

    // A winding is taken for half as much again above the cold as its sensor; between nothing and as much again anything is as likely, which is
    // half of that width over the root of three (assumed, no source).
    private static WindingLoss Warmed(Measured cold, Series squares, Series sensor)
    {
        double first = sensor.Values.Min(), hottest = sensor.Values.Max();
        double Growth(double temperature, double above) => WindingTemperature.Growth(temperature + above * (temperature - first));
        double[] at = PackSeries.At(sensor, squares.Times), counted = new double[at.Length];
        for (int i = 1; i < counted.Length; i++)
            counted[i] = counted[i - 1] + (squares.Values[i] - squares.Values[i - 1]) * Growth(at[i], 0.5);
        double hidden = 0.5 * (Growth(hottest, 1) - Growth(hottest, 0)) / Growth(hottest, 0.5) / Math.Sqrt(3);
        return new WindingLoss(cold, squares with { Values = counted }, hidden);
    }

    /// <summary>What heats a winding.</summary>
    /// <param name="Ohm">Its resistance.</param>
    /// <param name="Squares">Of its current summed over time, A2.s, each counted as often as the resistance was above <paramref name="Ohm"/>.</param>
    /// <param name="Hidden">Relative standard uncertainty of that count.</param>
    private sealed record WindingLoss(Measured Ohm, Series Squares, double Hidden);

    private static double Limit(FigureContext context, string channel) => context.Input.TemperatureLimits.TryGetValue(channel, out double limit)
        ? limit
        : throw new NoFigureException("no limit is stated for it");

    private static (HeatingFit Fit, string? Note) BySquares(FigureContext context, string channel) =>
        context.Once($"{channel} by the square of the current", () => Heated(context, channel, Squares(context)));

    private static (HeatingFit Fit, string? Note) ByWatts(FigureContext context, WindingLoss winding, Series idle) =>
        context.Once("motor by its losses", () => Heated(context, ChannelNames.MotorTemperature, Sum(winding, idle)));

    // Up to the next rise, by what had been gathered of the load at every moment; and what to mind about the surroundings.
    private static (HeatingFit Fit, string? Note) Heated(FigureContext context, string channel, Series gathered)
    {
        double from = context.NeedRise();
        double next = context.Trace.Segments.Where(s => s.RiseAt > from).Select(s => s.RiseAt).DefaultIfEmpty(double.MaxValue).Min();
        Series part = (context.Trace.Find(channel) ?? throw new NoFigureException($"the record has no usable {channel}")).Picked(from, next, MostSamples);
        (Input ambient, string? note) = Ambient(context, channel, from, next);
        return (HeatingFit.Of(part.Times, part.Values, Load(gathered, part.Times), ambient), note);
    }

    // Squares of the pack's current summed over time, A2.s.
    private static Series Squares(FigureContext context) => context.Once("squares of the current", () =>
    {
        Series current = Whole(context, ChannelNames.BatteryCurrent);
        return new Series("A2.s", 0, current.Times, Integral.Cumulated(current, i => i * i));
    });

    // The same of the winding's current.
    private static Series WindingSquares(FigureContext context)
    {
        Series current = Whole(context, ChannelNames.BatteryCurrent);
        return new Series("A2.s", 0, current.Times, DriveMoments.Heat(current, context.Need(ChannelNames.OutputThrottle), DriveMoments.Idle(context).Value));
    }

    // What a motor loses whatever its load, J summed over time: the no-load current at the back-EMF of the speed.
    private static Series IdleLoss(FigureContext context)
    {
        Model.Rig.Motor motor = context.Article?.Motor ?? throw new NoFigureException("no article declares the motor's no-load current, whose loss warms it too");
        Series speed = Whole(context, ChannelNames.RotorSpeed);
        return new Series("J", 0, speed.Times, Integral.Cumulated(speed, rpm => motor.NoLoadCurrent * rpm / motor.SpeedConstant));
    }

    private static Series Whole(FigureContext context, string channel) => context.Trace.Find(channel) ?? throw new NoFigureException($"the record has no usable {channel}");

    // J of both at the times of the first.
    private static Series Sum(WindingLoss winding, Series loss) =>
        new("J", 0, winding.Squares.Times, [.. winding.Squares.Values.Zip(PackSeries.At(loss, winding.Squares.Times), (s, j) => winding.Ohm.Value * s + j)]);

    // Mean from each time to the next, of what is gathered over time.
    private static double[] Load(Series gathered, double[] times)
    {
        double[] until = PackSeries.At(gathered, times);
        return [.. times.Select((t, i) => i + 1 < times.Length && times[i + 1] > t ? (until[i + 1] - until[i]) / (times[i + 1] - t) : 0)];
    }

    private static double MeanSquare(FigureContext context)
    {
        Series on = context.Need(ChannelNames.BatteryCurrent).Between(context.NeedRise(), context.OutputEnd);
        if (on.Count < 2)
            throw new NoFigureException("the output was on too briefly");
        return Integral.Cumulated(on, i => i * i)[^1] / (on.Times[^1] - on.Times[0]);
    }

    // Without a channel of their own the surroundings are as warm as the part was before it was first used.
    private static (Input Ambient, string? Note) Ambient(FigureContext context, string channel, double from, double to)
    {
        if (HeatFigures.Ambient(context, from, to) is { } measured)
            return (measured, null);
        Series part = context.Trace.Find(channel)!;
        double first = context.Trace.Segments[0].RiseAt;
        Series before = part.Between(double.MinValue, double.IsNaN(first) ? part.Times[0] : first);
        double[] cold = before.Count > 0 ? before.Values : [part.Values[0]];
        double scatter = PackSeries.Noise(part) / Math.Sqrt(cold.Length);
        return (new Input("ambient", cold.Average(), Measured.Combine(scatter, Measured.OfResolution(part.Resolution))), "surroundings taken as the part was before its first use");
    }

    /// <summary>The same; a reason instead where it is known too badly to decide on.</summary>
    public static Measured Worth(Measured figure) => figure.Value > 0 && figure.Uncertainty < Worthless * figure.Value
        ? figure
        : throw new NoFigureException("heating and cooling are recorded for too short a time");

    // Where they are the run's own nothing needs to be said.
    private static string Stated(FigureContext context) => context.Asked.Ambient is null ? "" : " as stated";

    private static string Joined(string text, string? note) => note is null ? text : $"{text}; {note}";
}

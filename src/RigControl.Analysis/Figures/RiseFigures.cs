using RigControl.Analysis.Fitting;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Figures;

/// <summary>How long a rise takes: to a stated speed, and until the speed has settled.</summary>
internal static class RiseFigures
{
    // A figure known worse than this share says nothing that a builder could decide on.
    private const double Worthless = 0.25;

    // Readings around a crossing, whose line tells the slope there.
    private const int Around = 25;

    // How much of the approach is looked at: from so many bands off, and on for so many times as long as from there to the band.
    private const double Wide = 2;
    private const double Onwards = 1.5;
    private const int FewestNear = 8;

    // Of five readings around one, so that a single one does not decide.
    private const int Vote = 2;

    /// <summary>First demand to the stated speed on the fitted rise, s.</summary>
    public static Measured TimeToSpeed(FigureContext context)
    {
        double target = context.Asked.ToSpeed ?? throw new NoFigureException("no speed is stated for it");
        Measured time = context.SpinUp.TimeTo(target * Blocks.RpmToRadPerSecond)
            ?? throw new NoFigureException(FormattableString.Invariant($"the fitted rise reaches only {context.SpinUp.Fastest / Blocks.RpmToRadPerSecond:0} rpm, not {target:0.#} rpm"));
        Measured result = FromDemand(context, time.Value, time.As("spin-up fit")) with { Note = FormattableString.Invariant($"to {target:0.#} rpm") };
        return time.Uncertainty < Worthless * time.Value ? result : throw new NoFigureException(FormattableString.Invariant($"{target:0.#} rpm is so near to the final speed that the moment is not known"));
    }

    /// <summary>First demand until the speed stays within a share of the steady speed, s.</summary>
    public static Measured SettlingTime(FigureContext context)
    {
        double demand = context.NeedRise(), share = context.Asked.SettledWithin;
        Measured steady = context.SteadySpeed;
        SpeedSignal signal = context.Speed.Between(demand, context.OutputEnd);
        if (signal.Noise > 0.5 * share * steady.Value)
            throw new NoFigureException(FormattableString.Invariant($"the readings scatter by as much as {100 * share:0.##} % of the steady speed"));
        int last = LastOutside(signal.Values, steady.Value, share);
        if (signal.Times[last] > 0.5 * (context.Segment.HoldAt + context.OutputEnd))
            throw new NoFigureException(FormattableString.Invariant($"the speed never stayed within {100 * share:0.##} % of the steady speed"));
        bool below = signal.Values[last] < steady.Value;
        double level = steady.Value * (below ? 1 - share : 1 + share);
        Measured settled = Approach(signal, last, steady.Value, share, level)
            ?? LocalFit.Crossing(signal, level, signal.Times[Math.Max(0, last - Around)], below, Math.Max(0.01, share / 2))
            ?? throw new NoFigureException("the moment at which the speed settles is not to be seen");
        double slope = Slope(signal, last);
        return FromDemand(
            context, settled.Value - demand, new Input("speed around the band", 0, settled.Uncertainty, settled.Freedom), new Input("steady speed", 0, steady.Uncertainty * level / steady.Value / slope, steady.Freedom))
            with { Note = Joined(FormattableString.Invariant($"within {100 * share:0.##} % of {steady.Value:0} rpm"), steady.Note) };
    }

    // A speed settles as its distance falls by the same share in every like time: fitted from twice the band inwards, to a level of its own, since
    // a pack fades meanwhile. Null where the readings there follow no such law.
    private static Measured? Approach(SpeedSignal signal, int last, double steady, double share, double level)
    {
        int first = last;
        while (first > 0 && !IsOutside(signal.Values, first - 1, steady, Wide * share))
            first--;
        double span = signal.Times[last] - signal.Times[first];
        SpeedSignal near = signal.Between(signal.Times[first], signal.Times[last] + Onwards * span);
        if (!(span > 0) || near.Count < FewestNear)
            return null;
        try
        {
            double middle = signal.Times[last], side = Math.Sign(signal.Values[last] - steady);
            Fit fit = LeastSquares.Solve(new FitProblem
            {
                Observed = near.Values,
                Start = [steady, side * share * steady, Math.Log(Wide) / span],
                Names = ["level", "distance", "rate"],
                Model = (p, predicted) =>
                {
                    for (int i = 0; i < predicted.Length; i++)
                        predicted[i] = p[0] + p[1] * Math.Exp(-p[2] * (near.Times[i] - middle));
                },
            });
            return Crossing(fit, near, middle, level) is { } at && at.Value > near.Times[0] && at.Value < near.Times[^1] && double.IsFinite(at.Uncertainty) ? at : null;
        }
        catch (FitFailedException)
        {
            return null;
        }
    }

    private static Measured Crossing(Fit fit, SpeedSignal near, double middle, double level)
    {
        (double settled, double distance, double rate) = (fit.Parameters[0], fit.Parameters[1], fit.Parameters[2]);
        double off = Math.Log((level - settled) / distance) / rate;
        double[] left = [.. near.Times.Select(t => Math.Exp(-rate * (t - middle)))];
        double[][] columns = [[.. left.Select(_ => 1.0)], left, [.. left.Zip(near.Times, (l, t) => -distance * (t - middle) * l)]];
        (double uncertainty, double freedom) = SharedMarks.Of(near, fit, [1 / (rate * (level - settled)), 1 / (rate * distance), off / rate], columns);
        return Measured.Of(middle - off, new Input("speed readings", 0, uncertainty, freedom));
    }

    // The demand came at some moment of the step before the first sample that shows it.
    private static Measured FromDemand(FigureContext context, double seen, params Input[] parts) => Measured.Of(
        seen + context.Segment.RiseStep / 2, [.. parts, new Input("moment of the demand", 0, Measured.OfResolution(context.Segment.RiseStep), Shape: Shape.Rectangular)]);

    // The last reading outside of the band that most of those around it share.
    private static int LastOutside(double[] values, double steady, double share)
    {
        for (int i = values.Length - 1; i >= 0; i--)
        {
            if (IsOutside(values, i, steady, share))
                return i;
        }

        throw new NoFigureException("the record begins with the speed settled");
    }

    private static bool IsOutside(double[] values, int i, double steady, double share)
    {
        bool Outside(int k) => Math.Abs(values[k] - steady) > share * steady;
        int first = Math.Max(0, i - Vote), end = Math.Min(values.Length, i + Vote + 1);
        return Outside(i) && 2 * Enumerable.Range(first, end - first).Count(Outside) > end - first;
    }

    // rpm/s there, whichever way.
    private static double Slope(SpeedSignal signal, int at)
    {
        int first = Math.Max(0, at - Around), end = Math.Min(signal.Count, at + Around + 1);
        double[] t = [.. signal.Times[first..end].Select(x => x - signal.Times[at])];
        Fit line = LinearFit.Solve([[.. t.Select(_ => 1.0)], t, [.. t.Select(x => x * x)]], signal.Values[first..end]);
        return Math.Max(Math.Abs(line.Parameters[1]), line.Uncertainty(1));
    }

    private static string Joined(string text, string? note) => note is null ? text : $"{text}; {note}";
}

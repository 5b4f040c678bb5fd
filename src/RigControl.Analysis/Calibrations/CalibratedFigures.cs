using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Analysis.Calibrations;

/// <summary>
/// Figures from corrected channels, each wider by what the calibrations leave uncertain: every figure is computed again with a channel
/// moved by one standard uncertainty, and what it moves by is that channel's part.
/// </summary>
public static class CalibratedFigures
{
    /// <summary>As <see cref="FigureCatalog.Compute"/>, with the channels corrected. Channels without a calibration stay as they are.</summary>
    /// <param name="at">When the trace was taken: for what had expired by then.</param>
    public static IReadOnlyList<Figure> Compute(IReadOnlyList<string> names, FigureInput input, IReadOnlyDictionary<string, Calibration> calibrations, DateTimeOffset at)
    {
        Calibration[] used = [.. calibrations.Values.Where(c => input.Trace.Find(c.Channel) is { } s && s.Unit == c.Unit).OrderBy(c => c.Channel, StringComparer.Ordinal)];
        Figure[] figures = [.. FigureCatalog.Compute(names, used.Length == 0 ? input : Corrected(input, used, null))];
        List<Part>[] parts = [.. figures.Select(_ => new List<Part>())];
        foreach (Calibration moved in used)
        {
            IReadOnlyList<Figure> again = FigureCatalog.Compute(names, Corrected(input, used, moved));
            for (int i = 0; i < figures.Length && again.Count == figures.Length; i++)
            {
                double by = figures[i].Value is { } value && again[i].Value is { } other ? other - value : 0;
                if (by != 0 || figures[i].Value is not null && FigureCatalog.LooksAt(figures[i]).Contains(moved.Channel))
                    parts[i].Add(new Part(About(moved, input.Trace.Find(moved.Channel)!, at), SharedPart.Calibration(moved.Channel), by, moved.Freedom ?? double.PositiveInfinity));
            }
        }

        return [.. figures.Select((f, i) => Widened(f, parts[i], Unsized(f, input.Trace, used, at)))];
    }

    /// <summary>What is not to be trusted of the calibrations of a trace, a sentence each: expired ones, and those that tell nothing of themselves.</summary>
    public static IEnumerable<string> Doubts(Trace trace, IReadOnlyDictionary<string, Calibration> calibrations, DateTimeOffset at) =>
        calibrations.Values.Where(c => trace.Find(c.Channel) is not null).OrderBy(c => c.Channel, StringComparer.Ordinal).Select(c => Doubt(c, at)).OfType<string>();

    /// <summary>A sentence naming the channels whose scale is taken as it came; null where none is.</summary>
    public static string? Missing(Trace trace, IReadOnlyDictionary<string, Calibration> calibrations)
    {
        string[] without = [.. trace.Channels.Where(c => c.Value.Count > 1 && Measuring.Contains(c.Value.Unit) && !calibrations.ContainsKey(c.Key)).Select(c => c.Key).Order(StringComparer.Ordinal)];
        return without.Length == 0 ? null : $"not calibrated, so that a wrong scale would show nowhere: {string.Join(", ", without)}";
    }

    // Units of sensors that drift or have a scale of their own; a timer's is not among them.
    private static readonly string[] Measuring = ["V", "A", "degC", "N", "N.m", "g"];

    // What makes a figure uncertain by an amount that nobody knows: a sensor taken at its word, and a calibration that no longer holds.
    private static string[] Unsized(Figure figure, Trace trace, Calibration[] used, DateTimeOffset at) =>
    [
        .. FigureCatalog.LooksAt(figure)
            .Where(channel => trace.Find(channel) is { Count: > 1 })
            .Select(channel => used.FirstOrDefault(c => c.Channel == channel) is { } c ? Doubt(c, at)
                : Measuring.Contains(trace.Find(channel)!.Unit) ? $"{channel}: no calibration" : null)
            .OfType<string>(),
    ];

    private static string? Doubt(Calibration c, DateTimeOffset at) =>
        c.IsExpired(at) ? $"{c.Channel}: calibration expired on {c.ValidUntil!.Value.UtcDateTime:yyyy-MM-dd}"
        : c.IsOnlyTared ? $"{c.Channel}: tared, no calibration"
        : c.UncertaintyUnknown ? $"{c.Channel}: calibration of unknown uncertainty"
        : null;

    private static FigureInput Corrected(FigureInput input, Calibration[] calibrations, Calibration? moved)
    {
        Dictionary<string, Series> channels = new(input.Trace.Channels);
        foreach (Calibration c in calibrations)
            channels[c.Channel] = c.Correct(channels[c.Channel], c == moved ? 1 : 0);
        return new FigureInput(input.Trace with { Channels = channels }, input.Article, input.RestSpeed) { Asked = input.Asked, Answers = input.Answers, TemperatureLimits = input.TemperatureLimits };
    }

    private static string About(Calibration calibration, Series series, DateTimeOffset at)
    {
        string text = calibration.IsOnlyTared ? calibration.Channel : $"{calibration.Channel} calibrated on {calibration.At.UtcDateTime:yyyy-MM-dd}";
        if (calibration.IsTared)
            text += calibration.IsOnlyTared ? " tared" : ", tared";
        if (calibration.TareAt is { } tared)
            text += $" on {tared.UtcDateTime:yyyy-MM-dd}";
        if (calibration.IsExpired(at))
            text += $", expired on {calibration.ValidUntil!.Value.UtcDateTime:yyyy-MM-dd}";
        return series.Values.Any(calibration.IsBeyond) ? text + ", readings lie beyond its points" : text;
    }

    private static Figure Widened(Figure figure, List<Part> parts, string[] unsized)
    {
        if (parts.Count + unsized.Length == 0 || figure is not { Value: { } value, StandardUncertainty: { } u, Interval95: { } interval })
            return figure;
        double variance = parts.Sum(p => p.Moved * p.Moved);
        double half = Measured.Combine([.. parts.Select(p => Coverage.Factor95(p.Freedom) * p.Moved)]);
        // What the figure had for itself keeps its lines; one that had none is a line.
        IEnumerable<(string, double)> own = figure.Budget.Count > 0 ? figure.Budget.Select(b => (b.Name, u * Math.Sqrt(b.Share))) : [("the readings themselves", u)];
        return figure with
        {
            StandardUncertainty = Measured.Combine(u, Math.Sqrt(variance)),
            Interval95 = variance == 0 ? interval : (value - Measured.Combine(value - interval.Low, half), value + Measured.Combine(interval.High - value, half)),
            Note = string.Join("; ", parts.Select(p => p.About).Prepend(figure.Note).Where(p => !string.IsNullOrEmpty(p))) is { Length: > 0 } note ? note : null,
            Budget = [.. variance == 0 && figure.Budget.Count > 0 ? figure.Budget : Measured.Shares([.. own, .. parts.Select(p => (p.Name, p.Moved))], u * u + variance), .. unsized.Select(UnsizedPart.Of)],
        };
    }

    // What a channel's calibration adds to a figure, with what to say of it.
    private readonly record struct Part(string About, string Name, double Moved, double Freedom);
}

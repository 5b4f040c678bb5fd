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
        if (used.Length == 0)
            return FigureCatalog.Compute(names, input);
        Figure[] figures = [.. FigureCatalog.Compute(names, Corrected(input, used, null))];
        List<(string About, string Name, double Moved)>[] parts = [.. figures.Select(_ => new List<(string, string, double)>())];
        foreach (Calibration moved in used)
        {
            IReadOnlyList<Figure> again = FigureCatalog.Compute(names, Corrected(input, used, moved));
            for (int i = 0; i < figures.Length && again.Count == figures.Length; i++)
            {
                if (figures[i].Value is not { } value || again[i].Value is not { } other || other == value)
                    continue;
                parts[i].Add((About(moved, input.Trace.Find(moved.Channel)!, at), $"calibration of {moved.Channel}", other - value));
            }
        }

        return [.. figures.Select((f, i) => Widened(f, parts[i]))];
    }

    /// <summary>A sentence naming the channels whose scale is taken as it came; null where none is.</summary>
    public static string? Missing(Trace trace, IReadOnlyDictionary<string, Calibration> calibrations)
    {
        string[] without = [.. trace.Channels.Where(c => c.Value.Count > 1 && Measuring.Contains(c.Value.Unit) && !calibrations.ContainsKey(c.Key)).Select(c => c.Key).Order(StringComparer.Ordinal)];
        return without.Length == 0 ? null : $"not calibrated, so that a wrong scale would show nowhere: {string.Join(", ", without)}";
    }

    // Units of sensors that drift or have a scale of their own; a timer's is not among them.
    private static readonly string[] Measuring = ["V", "A", "degC", "N", "N.m", "g"];

    private static FigureInput Corrected(FigureInput input, Calibration[] calibrations, Calibration? moved)
    {
        Dictionary<string, Series> channels = new(input.Trace.Channels);
        foreach (Calibration c in calibrations)
            channels[c.Channel] = c.Correct(channels[c.Channel], c == moved ? 1 : 0);
        return new FigureInput(input.Trace with { Channels = channels }, input.Article, input.RestSpeed) { After = input.After, Answers = input.Answers, TemperatureLimits = input.TemperatureLimits };
    }

    private static string About(Calibration calibration, Series series, DateTimeOffset at)
    {
        string text = $"{calibration.Channel} calibrated on {calibration.At.UtcDateTime:yyyy-MM-dd}";
        if (calibration.IsExpired(at))
            text += $", expired on {calibration.ValidUntil!.Value.UtcDateTime:yyyy-MM-dd}";
        return series.Values.Any(calibration.IsBeyond) ? text + ", readings lie beyond its points" : text;
    }

    private static Figure Widened(Figure figure, List<(string About, string Name, double Moved)> parts)
    {
        if (parts.Count == 0 || figure is not { Value: { } value, StandardUncertainty: { } u, Interval95: { } interval })
            return figure;
        double variance = parts.Sum(p => p.Moved * p.Moved);
        double half = Coverage.Factor95(double.PositiveInfinity) * Math.Sqrt(variance);
        // What the figure had for itself keeps its lines; one that had none is a line.
        IEnumerable<(string, double)> own = figure.Budget.Count > 0 ? figure.Budget.Select(b => (b.Name, u * Math.Sqrt(b.Share))) : [("the readings themselves", u)];
        return figure with
        {
            StandardUncertainty = Measured.Combine(u, Math.Sqrt(variance)),
            Interval95 = (value - Measured.Combine(value - interval.Low, half), value + Measured.Combine(interval.High - value, half)),
            Note = string.Join("; ", parts.Select(p => p.About).Prepend(figure.Note).Where(p => !string.IsNullOrEmpty(p))),
            Budget = Measured.Shares([.. own, .. parts.Select(p => (p.Name, p.Moved))], u * u + variance),
        };
    }
}

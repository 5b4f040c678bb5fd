using System.Globalization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Analysis.Repeats;

/// <summary>What several repeats say, in sentences.</summary>
public static class RepeatText
{
    /// <summary>One sentence per figure that was repeated, and one where nothing was.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<Figure> figures)
    {
        int most = figures.Select(f => f.Repeat).DefaultIfEmpty(0).Max();
        if (most == 1)
            yield return "a single run: how well it repeats is unknown";
        foreach (RepeatRow row in Rows(figures))
            yield return $"{row.Name}: mean of {row.Count} repeats {row.Mean} ± {row.Half} {row.Unit} (95 %), scatter {row.Scatter}{(row.Remark.Length > 0 ? "; " : "")}{row.Remark}";
    }

    /// <summary>One row per figure that was repeated.</summary>
    public static IEnumerable<RepeatRow> Rows(IReadOnlyList<Figure> figures)
    {
        foreach (IGrouping<(string, string), Figure> group in figures.Where(f => f is { Repeat: > 0, Value: not null, StandardUncertainty: not null }).GroupBy(f => (f.Name, Which(f))))
        {
            Figure[] repeats = [.. group];
            if (repeats.Length < 2)
                continue;
            yield return Row(group.Key.Item2, repeats, RepeatStatistics.Of([.. repeats.Select(f => new Measured(f.Value!.Value, f.StandardUncertainty!.Value))]));
        }
    }

    // Figures of several channels share a name; the last words of their method name the channel.
    private static string Which(Figure figure) => FigureCatalog.IsPerChannel(figure.Name) ? $"{figure.Name} of {figure.Method.Split(" of ")[^1].Split(';')[0]}" : figure.Name;

    private static RepeatRow Row(string what, Figure[] repeats, RepeatStatistics s)
    {
        double half = (s.Mean.Interval95.High - s.Mean.Interval95.Low) / 2;
        (string mean, string interval) = Rounding.Of(s.Mean.Value, half);
        (_, string scatter) = Rounding.Of(s.Mean.Value, s.Repeatability);
        return new RepeatRow(what, repeats.Length, mean, interval.Length > 0 ? interval : "0", repeats[0].Unit, scatter.Length > 0 ? scatter : "0", string.Join("; ", Remarks(repeats, s)));
    }

    private static IEnumerable<string> Remarks(Figure[] repeats, RepeatStatistics s)
    {
        if (s.Drifts)
            yield return string.Create(CultureInfo.InvariantCulture, $"it drifts by {s.Drift!.Value:G3} each repeat");
        if (s.Suspicious.Count > 0)
            yield return $"repeat {string.Join(", ", s.Suspicious.Select(i => repeats[i].Repeat))} stands apart";
    }
}

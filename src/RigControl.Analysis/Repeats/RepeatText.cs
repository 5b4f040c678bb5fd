using System.Globalization;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Analysis.Repeats;

/// <summary>What several repeats say, in sentences.</summary>
public static class RepeatText
{
    // From here on Student's factor is the normal one within a percent, and a number says no more.
    private const double Unlimited = 200;

    /// <summary>One sentence per figure that was repeated, and one where nothing was.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<Figure> figures)
    {
        int most = figures.Select(f => f.Repeat).DefaultIfEmpty(0).Max();
        if (most == 1)
            yield return "a single run: how well it repeats is unknown";
        foreach (RepeatRow row in Rows(figures))
        {
            string common = row.Common == "0" ? "" : $", common to all {row.Common}";
            yield return $"{row.Name}: mean of {row.Count} repeats {row.Mean} ± {row.Half} {row.Unit} (95 %), scatter {row.Scatter}: within {row.Within}, between {row.Between}{common}; "
                + $"degrees of freedom {row.Freedom}{(row.Remark.Length > 0 ? "; " : "")}{row.Remark}";
        }
    }

    /// <summary>One row per figure that was repeated.</summary>
    public static IEnumerable<RepeatRow> Rows(IReadOnlyList<Figure> figures) => RepeatedFigure.Of(figures).Select(Row);

    private static RepeatRow Row(RepeatedFigure repeated)
    {
        RepeatStatistics s = repeated.Statistics;
        double half = (s.Mean.Interval95.High - s.Mean.Interval95.Low) / 2;
        (string mean, string interval) = Rounding.Of(s.Mean.Value, half);
        string Size(double size) => Rounding.Of(s.Mean.Value, size).Uncertainty is { Length: > 0 } text ? text : "0";
        return new RepeatRow(
            repeated.Name, s.Count, mean, interval.Length > 0 ? interval : "0", repeated.Unit, Size(s.Repeatability), Size(s.Within), Size(s.Between), Size(s.Common),
            s.Mean.Freedom < Unlimited ? s.Mean.Freedom.ToString("0.#", CultureInfo.InvariantCulture) : "unlimited", string.Join("; ", Remarks(repeated)));
    }

    private static IEnumerable<string> Remarks(RepeatedFigure repeated)
    {
        RepeatStatistics s = repeated.Statistics;
        if (s.Shared.Count > 0)
            yield return $"more repeats do not make less of {string.Join(", ", s.Shared.Select(p => p.Name))}";
        if (s.Drifts)
            yield return string.Create(CultureInfo.InvariantCulture, $"it drifts by {s.Drift!.Value:G3} each repeat");
        if (s.Suspicious.Count > 0)
            yield return $"repeat {string.Join(", ", s.Suspicious.Select(i => repeated.Repeats[i].Repeat))} stands apart";
    }
}

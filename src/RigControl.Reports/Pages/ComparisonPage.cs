using System.Globalization;
using RigControl.Analysis.Comparing;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;
using RigControl.Reports.Plots;

namespace RigControl.Reports.Pages;

/// <summary>One side of a comparison in a report.</summary>
public sealed record ComparedSide(string Label, IReadOnlyList<string> Runs);

/// <summary>What a report of a comparison shows.</summary>
public sealed record ComparisonReport(string Article, bool Simulated, ComparedSide A, ComparedSide B, IReadOnlyList<ComparedFigure> Figures)
{
    /// <summary>What else differed, in sentences.</summary>
    public IReadOnlyList<string> Conditions { get; init; } = [];

    /// <summary>Why the spin-up takes longer or less; null where that is not known.</summary>
    public SpinUpSplit? Why { get; init; }

    /// <summary>Why that is not known; null where it is, or where there is no spin-up on both sides.</summary>
    public string? NoWhy { get; init; }

    /// <summary>Parts changed between, in sentences.</summary>
    public IReadOnlyList<string> Parts { get; init; } = [];

    /// <summary>A rise of each side over the same time, counted from its beginning.</summary>
    public IReadOnlyList<Panel> Panels { get; init; } = [];
}

/// <summary>The report of comparisons: whether the change helped, first of all.</summary>
public static class ComparisonPage
{
    public static string Write(IReadOnlyList<ComparisonReport> comparisons)
    {
        Html html = new();
        html.Element("h1", $"{comparisons[0].A.Label} against {string.Join(", ", comparisons.Select(c => c.B.Label))}");
        html.Element("p", $"Runs of {comparisons[0].Article}", "under");
        if (comparisons[0].Simulated)
            html.Raw("<p><span class=\"stamp\">SIMULATED</span></p>\n");
        foreach (ComparisonReport one in comparisons)
            Write(html, one, comparisons.Count > 1);
        return Html.Page($"{comparisons[0].A.Label} against {comparisons[^1].B.Label}", html);
    }

    private static void Write(Html html, ComparisonReport one, bool several)
    {
        if (several)
            html.Element("h2", $"{one.A.Label} against {one.B.Label}", "side");
        ComparedFigure[] changed = [.. one.Figures.Where(f => f.Verdict == Verdict.Changed)];
        Verdicts(html, one, changed);
        html.Part("The other figures", one.Figures.Count > changed.Length, h => h.List(one.Figures.Except(changed).OrderByDescending(f => f.Verdict).Select(VerdictText.Of)));
        html.Part("How large", DifferencePlot.Svg(one.Figures, one.A.Label) is not null, h => h
            .Raw($"<figure class=\"rows\">{DifferencePlot.Svg(one.Figures, one.A.Label)}</figure>\n")
            .Element("p", $"{one.B.Label} minus {one.A.Label}, with 95 % intervals; filled where more than noise.", "under"));
        html.Part("Why the spin-up differs", one.Why is not null || one.NoWhy is not null, h => Why(h, one));
        html.Part("Changed between", one.Parts.Count > 0, h => h.List(one.Parts));
        html.Part("Mind", one.Conditions.Count > 0, h => h.List(one.Conditions));
        html.Part("A rise of each side", one.Panels.Count > 0, h => h.Raw(string.Concat(RunPlot.SvgEach(one.Panels, [], $"c{one.B.Runs[0]}").Select(svg => $"<figure>{svg}</figure>\n"))));
        html.Part("Differences with their 95 % intervals", one.Figures.Count > 0, h =>
            h.Table(["figure", $"#{one.A.Label}", $"#{one.B.Label}", "unit", "#difference", "#95 % from", "#to", ""], one.Figures.Select(Row)));
        html.Part("Runs", true, h => h.List([$"{one.A.Label}: {string.Join(", ", one.A.Runs)}", $"{one.B.Label}: {string.Join(", ", one.B.Runs)}"]));
    }

    private static void Verdicts(Html html, ComparisonReport one, ComparedFigure[] changed)
    {
        html.Raw("<div class=\"verdict\">\n");
        html.Element("p", one.Figures.Count == 0 ? "No figure is on both sides."
            : changed.Length == 0 ? "No figure changed by more than noise."
            : $"With {one.B.Label} instead of {one.A.Label}, {changed.Length} of {one.Figures.Count} figures changed by more than noise:");
        if (changed.Length > 0)
            html.List(changed.Select(VerdictText.Change));
        html.Raw("</div>\n");
    }

    private static void Why(Html html, ComparisonReport one)
    {
        if (one.Why is not { } split)
        {
            html.Element("p", $"This cannot be told: {one.NoWhy}.");
            return;
        }

        html.Element("p", $"On the side of {one.B.Label} {SplitText.Difference(split)}.");
        html.Table(["cause", "#adds [s]", "#95 % from", "#to", ""], SplitText.Parts(split.Why).Select(p => Cause(p.Cause, p.Part)));
        html.Element("p", $"From {split.Repeats.First} and {split.Repeats.Second} spin-ups; {SplitText.Mind}.", "under");
    }

    private static string[] Cause(string cause, Measured part)
    {
        // Nobody times a spin-up closer than to a millisecond.
        string Shown(double value) => Html.Number(Math.Round(value, 3) + 0.0, "0.000");
        return [cause, Shown(part.Value), Shown(part.Interval95.Low), Shown(part.Interval95.High), SplitText.MayBeNothing(part) ? "may be nothing" : ""];
    }

    private static string[] Row(ComparedFigure f)
    {
        double error = double.IsNaN(f.Difference.StandardError) ? Math.Max(f.A.Known, f.B.Known) : f.Difference.StandardError;
        string Shown(double value) => Rounding.Of(value, error).Value;
        return
        [
            f.Name, $"{Shown(f.A.Mean)} ({f.A.Count.ToString(CultureInfo.InvariantCulture)})", $"{Shown(f.B.Mean)} ({f.B.Count.ToString(CultureInfo.InvariantCulture)})", f.Unit, Shown(f.Difference.Value),
            f.Difference.Interval95 is { } i ? Shown(i.Low) : "", f.Difference.Interval95 is { } j ? Shown(j.High) : "",
            f.Verdict switch { Verdict.Changed => "changed", Verdict.Perhaps => "perhaps", Verdict.NoDifference => "as before", _ => "unknown" },
        ];
    }
}

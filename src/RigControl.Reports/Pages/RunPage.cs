using System.Globalization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Reports.Plots;

namespace RigControl.Reports.Pages;

/// <summary>The report of one run: one file that needs nothing else, the verdict first.</summary>
public static class RunPage
{
    /// <exception cref="PlotException">There is no font for the plots.</exception>
    public static string Write(RunReport run)
    {
        Html html = new();
        Head(html, run);
        html.Part("Mind", RunVerdict.Cautions(run).Count > 0, h => h.List(RunVerdict.Cautions(run)));
        html.Part("Figures", run.Figures.Count > 0, h => Figures(h, run.Figures));
        html.Part("What was provoked", run.Verification is { Steps.Count: > 0 }, h => Provoked(h, run.Verification!));
        html.Part("What was not provoked", run.Verification is { NotProvoked.Count: > 0 }, h => h.List(run.Verification!.NotProvoked));
        html.Part("Trips, refusals and incidents", Happened(run).Any(), h => h.Table(["#at [s]", "what", "in a sentence"], Happened(run)));
        html.Part("Plots", run.Panels.Count > 0, h => h.Raw(string.Concat(RunPlot.SvgEach(run.Panels, Moments(run), "p").Select(svg => $"<figure>{svg}</figure>\n"))));
        html.Part("Interlocks: the least room while the output was on", run.Margins.Count > 0, h => Margins(h, run.Margins));
        html.Part("Failsafe", Proofs(run).Any(), h => h.List(Proofs(run)));
        html.Part("Notes and files", run.Remarks.Count + run.Files.Count + run.Tags.Count > 0, h => Additions(h, run));
        html.Part("Provenance", true, h => Provenance(h, run.Header));
        return Html.Page($"{run.Header.Procedure.Name} of {run.Header.Article.Name}, run {run.Header.Run}", html);
    }

    private static void Head(Html html, RunReport run)
    {
        RunHeader header = run.Header;
        html.Element("h1", $"{header.Procedure.Name} of {header.Article.Name}");
        html.Element("p", string.Create(CultureInfo.InvariantCulture, $"Run {header.Run} on {header.Rig.Name}, {header.StartedAt.UtcDateTime:yyyy-MM-dd HH:mm} UTC, by {header.Operator}"), "under");
        if (header.Simulated)
            html.Raw("<p><span class=\"stamp\">SIMULATED</span></p>\n");
        html.Element("p", RunVerdict.Sentence(run), RunVerdict.IsBad(run) ? "verdict bad" : "verdict good");
    }

    private static void Figures(Html html, IReadOnlyList<Figure> figures)
    {
        RepeatRow[] repeated = [.. RepeatText.Rows(figures)];
        if (repeated.Length > 0)
        {
            html.Table(["mean of the repeats", "#value", "#± (95 %)", "unit", "#scatter", "#within", "#between", "#common", "#repeats", "#degrees of freedom", ""], repeated.Select(r => new[] { r.Name, r.Mean, r.Half, r.Unit, r.Scatter, r.Within, r.Between, r.Common, Html.Number(r.Count, "0"), r.Freedom, r.Remark }));
            html.Element("p", "Scatter is the standard deviation from one repeat to the next: within, what each is known to by itself, and between, what lies beyond it. Common is the same in every repeat and stays whole in the mean.", "under");
            html.Element("h3", "Each repeat");
        }

        html.Table(["figure", "#repeat", "#value", "#±", "unit", "#95 % from", "#to"], figures.Where(f => f.Value is not null).Select(Row));
        html.Element("p", "± is the standard uncertainty; the last two columns hold the 95 % interval.", "under");
        if (figures.Any(f => f.Value is null))
            html.List(figures.Where(f => f.Value is null).Select(f => $"no {f.Name}: {f.Note}").Distinct());
        Budgets(html, figures);
        html.Raw("<details><summary>How each was computed</summary>").List(figures.Select(f => $"{f.Name}: {f.Method}").Distinct()).Raw("</details>\n");
    }

    private static void Budgets(Html html, IReadOnlyList<Figure> figures)
    {
        Figure[] known = [.. figures.Where(f => f.Budget.Count > 0)];
        if (known.Length == 0)
            return;
        html.Element("h3", "What to measure better next")
            .Element("p", "Where the uncertainty of each figure comes from, with the share of its variance.", "under")
            .List(known.GroupBy(Name).Select(f => $"{f.Key}: {BudgetText.Mostly([.. f])}"));
        known = [.. known.Where(f => f.Budget.Count > 1)];
        if (known.Length > 0)
            html.Raw("<details><summary>What each uncertainty is made of</summary>").List(known.Select(f => $"{Name(f)}, repeat {Repeat(f)}: {BudgetText.Whole(f)}")).Raw("</details>\n");
    }

    /// <summary>Of a figure, with the channel where there is one for each.</summary>
    internal static string Name(Figure figure) => FigureCatalog.IsPerChannel(figure.Name) ? Analysis.Comparing.Comparison.KeyOf(figure) : figure.Name;

    private static string Repeat(Figure figure) => figure.Repeat == 0 ? "all" : figure.Repeat.ToString(CultureInfo.InvariantCulture);

    private static string[] Row(Figure figure)
    {
        (string value, string uncertainty) = Rounding.Of(figure.Value!.Value, figure.StandardUncertainty);
        return
        [
            Name(figure), Repeat(figure), value, uncertainty, figure.Unit,
            figure.Interval95 is { } low ? Rounding.Of(low.Low, figure.StandardUncertainty).Value : "", figure.Interval95 is { } high ? Rounding.Of(high.High, figure.StandardUncertainty).Value : "",
        ];
    }

    private static IEnumerable<string[]> Happened(RunReport run)
    {
        IEnumerable<(double? At, string What, string Text)> events = run.Events
            .Where(e => e.Name is EventNames.Trip && e.Subject != TripCauseNames.Of(TripCause.Provoked) || e.Name is EventNames.Refusal or EventNames.DeviceLost or EventNames.RepeatsEnded)
            .Select(e => ((double?)e.At.TotalSeconds, e.Name, $"{e.Text}{Reaction(e)}"));
        IEnumerable<(double?, string, string)> incidents = run.Remarks.Where(r => r.Kind == RemarkKind.Incident).Select(r => (r.At, "incident", r.Text));
        return events.Concat(incidents).OrderBy(e => e.Item1 ?? double.MaxValue)
            .Select(e => new[] { e.Item1 is { } at ? Html.Number(at, "0.000") : "", e.Item2, e.Item3 });
    }

    private static void Provoked(Html html, VerificationReport verification) => html.Table(
        ["what", "", "#took [ms]", "#of [ms]", "expected or seen"],
        verification.Steps.Select(s => new[] { s.Name, s.Passed ? "passed" : "FAILED", Milliseconds(s.Reaction), Milliseconds(s.Allowed), s.What }), "prose");

    private static string Milliseconds(double? seconds) => seconds is { } s ? Html.Number(s * 1000, "0") : "";

    private static string Reaction(RigEvent happened) => happened.Data.TryGetValue("reaction", out object? reaction)
        ? string.Create(CultureInfo.InvariantCulture, $" (stop output after {Convert.ToDouble(reaction, CultureInfo.InvariantCulture) * 1000:0.0} ms)")
        : "";

    private static Moment[] Moments(RunReport run) =>
    [
        .. run.Events.Where(e => e.Name == EventNames.StateEntered && e.Subject is "SpinUp" or "CoastDown").Select(e => new Moment(e.At.TotalSeconds, "", false)),
        .. run.Events.Where(e => e.Name == EventNames.Trip && e.Subject != TripCauseNames.Of(TripCause.Provoked)).Select(e => new Moment(e.At.TotalSeconds, e.Subject, true)),
        .. run.Remarks.Where(r => r is { Kind: RemarkKind.Incident, At: not null }).Select(r => new Moment(r.At!.Value, "incident", true)),
    ];

    private static void Margins(Html html, IReadOnlyList<InterlockMargin> margins) => html.Table(
        ["interlock", "#room", "in a sentence", "#at [s]"],
        margins.OrderBy(m => m.Margin).Select(m => new[] { m.Interlock, Html.Number(100 * m.Margin, "0") + " %", m.Text, Html.Number(m.At, "0.000") }), "prose");

    private static IEnumerable<string> Proofs(RunReport run) =>
        run.Events.Where(e => e.Name.StartsWith("failsafe", StringComparison.Ordinal)).Select(e => e.Text);

    private static void Additions(Html html, RunReport run)
    {
        if (run.Tags.Count > 0)
            html.Element("p", $"Tags: {string.Join(", ", run.Tags)}");
        html.List([
            .. run.Remarks.Where(r => r.Kind == RemarkKind.PartChanged).Select(r => $"changed before this run: {r.Subject}: {r.Text}"),
            .. run.Remarks.Where(r => r.Kind == RemarkKind.Note).Select(r => $"{r.Text} ({r.Author}, {r.WrittenAt.UtcDateTime:yyyy-MM-dd})"),
            .. run.Events.Where(e => e.Name is EventNames.Answer or EventNames.Note).Select(e => e.Text),
            .. run.Files.Select(f => $"{f.Path}, SHA-256 {f.Digest}{(f.Offset is { } o ? $", its time 0 is {Html.Number(o, "0.000")} s of the run" : "")}"),
        ]);
    }

    private static string Listed(IReadOnlyDictionary<string, string> values) => string.Concat(values.Select(v => $", {v.Key} {v.Value}"));

    private static void Provenance(Html html, RunHeader header)
    {
        html.Table(["what", "which"],
        [
            ["program", header.Software],
            ["rig", header.Rig.Name], ["article", header.Article.Name], ["procedure", header.Procedure.Name],
            ["simulated or real", header.Simulated ? $"simulated, seed {header.Seed}" : "real"],
            ["operator", header.Operator],
            ["clock", header.Clock.Length > 0 ? header.Clock : "not noted"],
            .. header.Devices.Select(d => new[] { "device", $"{d.Id} {d.Plugin}{Listed(d.Facts)}{Listed(d.Options)}" }),
            .. header.Calibrations.Select(c => new[] { "calibration", $"{c.Channel} = {c.Correction}, x the reading; of {c.At.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}{(c.Reference.Length > 0 ? $", against {c.Reference}" : "")}" }),
            .. header.Plugins.Select(p => new[] { "plugin", $"{p.Assembly} {p.Version}, folder SHA-256 {p.Digest}" }),
            .. header.Interlocks.Select(i => new[] { "interlock", $"{i.Id}: {string.Join(", ", i.Options.Select(o => $"{o.Key} {o.Value}"))}" }),
        ], "long");
        foreach (DocumentCopy document in new[] { header.Rig, header.Article, header.Procedure }.Where(d => d.Text.Length > 0))
            html.Raw("<details><summary>").Raw(Html.Escape($"{document.Name}, as it was")).Raw("</summary><pre>").Raw(Html.Escape(document.Text)).Raw("</pre></details>\n");
    }
}

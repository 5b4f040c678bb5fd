using RigControl.Analysis.Repeats;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Failsafe;
using RigControl.Cli.Runs;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Output;

/// <summary>The JSON document of one run: what <c>run --json</c> and <c>runs show --json</c> print.</summary>
internal static class RunDocument
{
    public static object Of(RunRecord record) => Of(record.Header, record.End, record.Events, record.Figures, record);

    private static object Of(RunHeader header, RunEnd? end, IReadOnlyList<RigEvent> events, IReadOnlyList<Figure> figures, RunRecord record) => new
    {
        run = header.Run,
        procedure = header.Procedure.Name,
        article = header.Article.Name,
        rig = header.Rig.Name,
        startedAt = header.StartedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", System.Globalization.CultureInfo.InvariantCulture),
        outcome = OutcomeWords.Of(end?.Outcome ?? RunOutcome.BrokenOff),
        simulated = header.Simulated,
        seed = header.Seed,
        provenance = Provenance(header),
        note = end?.Note,
        refusals = events.Where(e => e.Name == EventNames.Refusal).Select(e => new { interlock = e.Subject, reason = e.Text }),
        trips = events.Where(e => e.Name == EventNames.Trip).Select(e => new
        {
            interlock = e.Subject, channel = e.Data["channel"], reason = e.Text, at = Number(e.Data["at"]), reaction = e.Data.TryGetValue("reaction", out object? reaction) ? Number(reaction) : (double?)null,
            value = NumberOf(e, "value"), limit = NumberOf(e, "limit"), done = TextOf(e, "done"), beforeReset = TextOf(e, "before-reset"),
        }),
        states = events.Where(e => e.Name == EventNames.StateEntered).Select(e => new { state = e.Subject, at = Round(e.At.TotalSeconds) }),
        notes = events.Where(e => e.Name == EventNames.Note).Select(e => new { about = e.Subject, text = e.Data["text"], at = Round(e.At.TotalSeconds) }),
        figures = figures.Select(Of),
        repeats = RepeatedFigure.Of(figures).Select(RepeatDocument.Of),
        proof = RecordedProof.Of(record) is { } kept ? Proof(kept.Proof) : null,
        tags = record.Additions.Tags,
        remarks = record.Additions.Remarks.Select(AdditionsDocument.Of),
        files = record.Additions.Files.Select(AdditionsDocument.Of),
        prunedAt = record.PrunedAt?.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture),
    };

    private static object Provenance(RunHeader header) => new
    {
        software = header.Software, @operator = header.Operator, clock = header.Clock,
        plugins = header.Plugins.Select(p => new { assembly = p.Assembly, version = p.Version, digest = p.Digest }),
        devices = header.Devices.Select(d => new { id = d.Id, plugin = d.Plugin, simulated = d.Simulated, facts = d.Facts, options = d.Options }),
        interlocks = header.Interlocks.Select(i => new { id = i.Id, plugin = i.Plugin, options = i.Options }),
        calibrations = header.Calibrations.Select(c => new { channel = c.Channel, at = c.At.UtcDateTime, validUntil = c.ValidUntil?.UtcDateTime, correction = c.Correction, reference = c.Reference }),
    };

    private static object Proof(FailsafeProof proof) => new
    {
        notProvoked = proof.NotProvoked.Select(n => new { name = n.Name, why = n.Why }),
        madeAt = proof.MadeAt.UtcDateTime, validUntil = proof.ValidUntil.UtcDateTime, simulated = proof.Simulated,
        provocations = proof.Provocations.Select(FailsafeDocument.Of),
    };

    public static object Of(Figure figure) => new
    {
        name = figure.Name,
        value = figure.Value,
        unit = figure.Unit,
        standardUncertainty = figure.StandardUncertainty,
        interval95 = figure.Interval95 is { } i ? new[] { i.Low, i.High } : null,
        repeat = figure.Repeat,
        method = figure.Method,
        note = figure.Note,
        budget = figure.Budget.Select(c => new { name = c.Name, standardUncertainty = Sized(c, c.Uncertainty), share = Sized(c, c.Share) }),
    };

    // A line whose size nobody knows has no number.
    private static double? Sized(Contribution line, double number) => UnsizedPart.Is(line) ? null : number;

    private static double Number(object value) => Round(Convert.ToDouble(value, System.Globalization.CultureInfo.InvariantCulture));

    // Times are known to the microsecond; the digits below are those of binary fractions.
    private static double Round(double seconds) => Math.Round(seconds, 6);

    private static double? NumberOf(RigEvent happened, string name) => happened.Data.TryGetValue(name, out object? value) ? Number(value) : null;

    private static string? TextOf(RigEvent happened, string name) => happened.Data.TryGetValue(name, out object? value) ? (string)value : null;
}

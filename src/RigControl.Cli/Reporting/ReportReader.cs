using RigControl.Analysis.Traces;
using RigControl.Cli.Comparing;
using RigControl.Cli.Failsafe;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Reports.Pages;
using RigControl.Reports.Plots;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Reporting;

/// <summary>Gathers what reports show from the logbook.</summary>
internal static class ReportReader
{
    public static RunReport Run(LogbookFile book, string run, PluginCatalog catalog)
    {
        RunRecord record = RunRecord.Read(book, run);
        IReadOnlyDictionary<string, Series> series = RunSeries.Read(book, record.Header);
        (IReadOnlyList<InterlockMargin> margins, string? lacking) = record.PrunedAt is null ? MarginReader.Read(book, record.Header, catalog) : ([], null);
        List<string> cautions = [];
        if (lacking is not null)
            cautions.Add(lacking);
        if (record.PrunedAt is { } pruned)
            cautions.Add($"The samples were taken away on {pruned.UtcDateTime:yyyy-MM-dd}: the figures cannot be computed anew.");
        cautions.AddRange(record.Additions.Files.Select(f => (f.Path, Change: FileDigest.Change(f))).Where(f => f.Change is not null).Select(f => $"{f.Path} {f.Change!.Value.What}."));
        return new RunReport(record.Header, OutcomeWords.Of(record.End?.Outcome ?? RunOutcome.BrokenOff), record.End)
        {
            Figures = record.Figures, Events = record.Events, Remarks = record.Additions.Remarks, Tags = record.Additions.Tags, Files = record.Additions.Files,
            Verification = ReadVerification(record) is { } verified ? verified with { NotProvoked = NotProvoked(record) } : null, Margins = margins, Panels = Panel.Of(RunSeries.UsualOf(series).Select(n => (n, series[n]))), Cautions = cautions,
        };
    }

    private static VerificationReport? ReadVerification(RunRecord record)
    {
        if (record.Header.Procedure.Name != VerificationProcedure.Name)
            return null;
        (string Text, FailsafeProof Proof)? kept = RecordedProof.Of(record);
        return new VerificationReport(kept?.Text, [.. (kept?.Proof.Provocations ?? []).Select(p => (p.Name, FailsafeDocument.WhatOf(p), p.Reaction, p.Allowed, p.Passed))]);
    }

    public static ComparisonReport Comparison(LogbookFile book, RunComparison compared) => new(
        compared.A.Runs[0].Header.Article.Name, compared.A.Simulated, Side(compared.A), Side(compared.B), compared.Figures)
    {
        Conditions = compared.Conditions, Why = compared.Why?.Split, NoWhy = compared.Why?.Reason,
        Panels = RiseReader.Read(book, compared),
        Parts = [.. compared.Parts.Select(p => $"before run {p.Run}: {p.Part.Subject}: {p.Part.Text}")],
    };

    private static IReadOnlyList<string> NotProvoked(RunRecord record) => [.. (RecordedProof.Of(record)?.Proof.NotProvoked ?? []).Select(n => $"{n.Name}: {n.Why}")];

    private static ComparedSide Side(RunGroup group) => new(group.Label, [.. group.Runs.Select(r => r.Header.Run)]);
}

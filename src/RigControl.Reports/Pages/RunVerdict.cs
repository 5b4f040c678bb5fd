using System.Globalization;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Reports.Pages;

/// <summary>What a run came to, first of all, and what to mind when its numbers are read.</summary>
internal static class RunVerdict
{
    public static bool IsBad(RunReport run) => run.End is not { Outcome: RunOutcome.Completed } || run.Verification is { Proof: null };

    public static string Sentence(RunReport run)
    {
        if (run is { End.Outcome: RunOutcome.Completed, Verification: { } verification })
            return verification.Proof is { } proof ? $"{proof}." : "No proof: not everything was seen as it must be.";
        RigEvent[] trips = [.. run.Events.Where(e => e.Name == EventNames.Trip)];
        RigEvent[] refusals = [.. run.Events.Where(e => e.Name == EventNames.Refusal)];
        string told = run.End?.Outcome switch
        {
            RunOutcome.Completed => $"Completed: {Count(run.Figures.Count(f => f.Value is not null), "figure")}{Trips(run, trips.Length)}.",
            RunOutcome.SafeStop => $"Ended in safe-stop: {(trips.Length > 0 ? trips[0].Text : run.End.Note ?? "stopped")}.",
            RunOutcome.Refused => $"Refused: {(refusals.Length > 0 ? refusals[0].Text : run.End.Note ?? "nothing was energised")}.",
            RunOutcome.Failed => $"Failed before anything was energised: {run.End.Note ?? "a device or the storage was lost"}.",
            _ => "Broken off: the record has no end. Whoever recorded it was killed or lost power.",
        };
        return told.Replace("..", ".", StringComparison.Ordinal);
    }

    // What was typed in or recorded elsewhere could not trip.
    private static string Trips(RunReport run, int count) => run.Header.Rig.Text.Length == 0 ? ""
        : count > 0 ? $", though {Count(count, "trip")} came first" : ", no trip";

    public static IReadOnlyList<string> Cautions(RunReport run)
    {
        List<string> told = [];
        if (run.Header.Simulated)
            told.Add("Simulated: no machine turned, and nothing here says what a real one does.");
        if (run.Figures.Count > 0 && run.Figures.Max(f => f.Repeat) <= 1)
            told.Add("A single run: how well it repeats is unknown.");
        if (run.Header.Channels.Count == 0)
            told.Add("Typed readings: the uncertainty is that of the instrument's step alone; its own error is not known.");
        else if (run.Header.Interlocks.Count == 0)
            told.Add("Not interlocked: nothing of this program watched over the run.");
        if (run.Figures.Any(f => f.Value is null))
            told.Add($"No {string.Join(", ", run.Figures.Where(f => f.Value is null).Select(f => f.Name).Distinct())}: the reasons stand with the figures.");
        told.AddRange(run.Figures.Where(f => f is { Value: not null, Note: not null }).GroupBy(f => f.Note).Select(g => $"{string.Join(", ", g.Select(RunPage.Name).Distinct())}: {g.Key}"));
        told.AddRange(BudgetText.Unsized(run.Figures, RunPage.Name).Select(line => line + "."));
        told.AddRange(run.Cautions);
        return told;
    }

    private static string Count(int count, string what) => string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}

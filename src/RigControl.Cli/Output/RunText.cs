using System.Globalization;
using RigControl.Analysis.Comparing;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Rehearsals;
using RigControl.Cli.Runs;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Output;

/// <summary>A run as text: what it was, how it ended and why, its figures.</summary>
internal static class RunText
{
    public static void Print(RunRecord record)
    {
        (RunHeader header, RunEnd? end, IReadOnlyList<RigEvent> events, IReadOnlyList<Figure> figures) = record;
        string outcome = OutcomeWords.Of(end?.Outcome ?? RunOutcome.BrokenOff);
        Console.WriteLine($"run {header.Run}: {header.Procedure.Name} of {header.Article.Name} on {header.Rig.Name}: {outcome}{(header.Simulated ? " (simulated)" : "")}");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"started {header.StartedAt.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC by {header.Operator}, seed {header.Seed}"));
        if (end?.Note is { } note)
            Console.WriteLine(note);
        if (RecordedProof.Of(record) is { } proof)
            Proof(proof.Text, proof.Proof);
        foreach (RigEvent e in events.Where(e => e.Subject != TripCauseNames.Of(TripCause.Provoked)))
        {
            if (e.Name is EventNames.Trip or EventNames.DeviceLost or EventNames.RepeatsEnded)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"at {e.At.TotalSeconds:0.000} s: {e.Text}{Reaction(e)}"));
            else if (e.Name is EventNames.Answer or EventNames.Note)
                Console.WriteLine(e.Text);
            else if (e.Name == EventNames.Refusal)
                Console.WriteLine(e.Text.Contains(" refused: ", StringComparison.Ordinal) ? e.Text : $"refused: {e.Text}");
        }

        foreach (string before in events.Where(e => e.Subject != TripCauseNames.Of(TripCause.Provoked)).Select(BeforeReset).OfType<string>().Distinct())
            Console.WriteLine($"before the next reset: {before}");
        foreach (string line in AdditionsDocument.Lines(record.Additions))
            Console.WriteLine(line);
        if (record.PrunedAt is { } pruned)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"samples taken away on {pruned.UtcDateTime:yyyy-MM-dd}, but for the seconds around a trip"));
        foreach (string line in FigureText.Table(figures))
            Console.WriteLine(line);
        foreach (string line in BudgetText.Unsized(figures, Comparison.KeyOf))
            Console.WriteLine(line);
        foreach (string line in RepeatText.Of(figures))
            Console.WriteLine(line);
        foreach (string line in Foresight.Lines(header, figures))
            Console.WriteLine(line);
    }

    private static void Proof(string text, FailsafeProof proof)
    {
        Console.WriteLine($"{text}: {proof.Provocations.Count} provoked or looked at, each as it must be; `report` lists them");
        foreach (Unprovoked left in proof.NotProvoked)
            Console.WriteLine($"not provoked: {left.Name}: {left.Why}");
    }

    private static string? BeforeReset(RigEvent happened) =>
        happened.Name == EventNames.Trip && happened.Data.TryGetValue("before-reset", out object? before) ? (string)before : null;

    private static string Reaction(RigEvent trip) => trip.Name != EventNames.Trip ? ""
        : trip.Data.TryGetValue("reaction", out object? reaction)
            ? string.Create(CultureInfo.InvariantCulture, $" (stop output after {Convert.ToDouble(reaction, CultureInfo.InvariantCulture) * 1000:0.0} ms)")
            : " (no device confirmed the stop output)";
}

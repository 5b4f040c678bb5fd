using RigControl.Analysis.Comparing;
using RigControl.Logbook;
using RigControl.Model.Records;

namespace RigControl.Cli.Comparing;

/// <summary>One side against another.</summary>
/// <param name="Figures">Every figure that both have.</param>
/// <param name="Conditions">What else differed.</param>
/// <param name="Parts">Parts changed from the first of these runs to the last, with the run before which they were.</param>
internal sealed record RunComparison(RunGroup A, RunGroup B, IReadOnlyList<ComparedFigure> Figures, IReadOnlyList<string> Conditions, IReadOnlyList<(string Run, Remark Part)> Parts)
{
    /// <summary>Why the second side spins up slower or faster; null where there is no spin-up on both.</summary>
    public WhyReading? Why { get; init; }

    public bool Changed => Figures.Any(f => f.Verdict == Verdict.Changed);

    /// <summary>The first group against each other one, corrected for all figures of all of them.</summary>
    public static IReadOnlyList<RunComparison> Of(LogbookFile book, IReadOnlyList<RunGroup> groups)
    {
        RunGroup a = groups[0];
        int[] counts = [.. groups.Skip(1).Select(b => Compare(a, b, 0).Count)];
        return [.. groups.Skip(1).Select((b, i) => One(book, a, b, Compare(a, b, counts.Sum() - counts[i])))];
    }

    private static RunComparison One(LogbookFile book, RunGroup a, RunGroup b, IReadOnlyList<ComparedFigure> figures) =>
        new(a, b, figures, ConditionReader.Differences(book, a, b), PartsBetween(book, a, b)) { Why = SplitReader.Read(book, a, b, figures) };

    private static IReadOnlyList<ComparedFigure> Compare(RunGroup a, RunGroup b, int others)
    {
        bool sameRig = a.Runs.Concat(b.Runs).Select(r => r.Header.Rig.Text).Distinct().Count() == 1;
        return Comparison.Of([.. a.Runs.Select(r => r.Figures)], [.. b.Runs.Select(r => r.Figures)], sameRig, a.ByHand || b.ByHand, others);
    }

    private static IReadOnlyList<(string, Remark)> PartsBetween(LogbookFile book, RunGroup a, RunGroup b)
    {
        DateTimeOffset[] starts = [.. a.Runs.Concat(b.Runs).Select(r => r.Header.StartedAt)];
        HashSet<string> articles = [.. a.Runs.Concat(b.Runs).Select(r => r.Header.Article.Name)];
        // What was changed before the very first run is on both sides.
        return [.. book.RunsBetween(starts.Min().AddTicks(1), starts.Max().AddTicks(1))
            .Where(r => articles.Contains(r.Article))
            .SelectMany(r => book.Remarks(r.Run).Where(m => m.Kind == RemarkKind.PartChanged).Select(m => (r.Run, m)))];
    }
}

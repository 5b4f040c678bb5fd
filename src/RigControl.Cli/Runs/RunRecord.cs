using RigControl.Logbook;
using RigControl.Model.Records;

namespace RigControl.Cli.Runs;

/// <summary>What the logbook holds of a run, apart from its samples and scans.</summary>
internal sealed record RunRecord(RunHeader Header, RunEnd? End, IReadOnlyList<RigEvent> Events, IReadOnlyList<Figure> Figures)
{
    public RunAdditions Additions { get; init; } = RunAdditions.None;

    /// <summary>When the samples were taken away; null where they are there.</summary>
    public DateTimeOffset? PrunedAt { get; init; }

    public static RunRecord Read(LogbookFile book, string run) => new(book.Header(run), book.End(run), [.. book.Events(run)], [.. book.Figures(run)])
    {
        Additions = RunAdditions.Read(book, run), PrunedAt = book.PrunedAt(run),
    };
}

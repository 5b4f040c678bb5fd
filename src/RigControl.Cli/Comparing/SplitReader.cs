using RigControl.Analysis.Comparing;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Traces;
using RigControl.Cli.Runs;
using RigControl.Documents;
using RigControl.Logbook;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Comparing;

/// <summary>Why one side spins up slower than another, or why that cannot be told.</summary>
/// <param name="Split">Null where it cannot be had.</param>
/// <param name="Reason">Why not; null where it can.</param>
/// <param name="Runs">How many runs of each side were read for it.</param>
internal sealed record WhyReading(SpinUpSplit? Split, string? Reason, (int A, int B) Runs);

/// <summary>Reads from the samples of runs why their spin-ups differ.</summary>
internal static class SplitReader
{
    /// <summary>The figure that is split.</summary>
    public const string Figure = "spin-up-time";

    // The spin-up time is to a share of it, so that a weaker supply may show there alone.
    private const string SteadySpeed = "steady-speed";

    // Reading and fitting a run takes a good part of a second; more of them hardly sharpen the split.
    private const int MostRuns = 3;

    /// <summary>Null where the sides have no spin-up to compare.</summary>
    public static WhyReading? Read(LogbookFile book, RunGroup a, RunGroup b, IReadOnlyList<ComparedFigure> figures)
    {
        if (figures.All(f => f.Name != Figure))
            return null;
        if (figures.Where(f => f.Name is Figure or SteadySpeed).All(f => f.Verdict == Verdict.NoDifference))
            return new WhyReading(null, "neither it nor the steady speed changed by anything that could be split", (0, 0));
        RunRecord[] first = Some(a), second = Some(b);
        try
        {
            return new WhyReading(SpinUpSplit.Of(Repeats(book, first), Repeats(book, second)), null, (first.Length, second.Length));
        }
        catch (Exception e) when (e is NoFigureException or FitFailedException)
        {
            return new WhyReading(null, e.Message, (first.Length, second.Length));
        }
    }

    // Spread over the whole side, so that what drifts is in it.
    private static RunRecord[] Some(RunGroup group)
    {
        int count = Math.Min(MostRuns, group.Runs.Count);
        return [.. Enumerable.Range(0, count).Select(i => group.Runs[count == 1 ? 0 : i * (group.Runs.Count - 1) / (count - 1)])];
    }

    private static IReadOnlyList<FigureContext> Repeats(LogbookFile book, RunRecord[] runs) => [.. runs.SelectMany(r => Repeats(book, r))];

    private static IEnumerable<FigureContext> Repeats(LogbookFile book, RunRecord run)
    {
        RunHeader header = run.Header;
        if (header.Channels.Count == 0)
            throw new NoFigureException($"run {header.Run} has typed readings and no trace");
        if (run.PrunedAt is not null)
            throw new NoFigureException($"the samples of run {header.Run} were taken away");
        Article? article = DocumentReader.ReadArticle(header.Article.Text, "recorded article").Value;
        Procedure? procedure = header.Procedure.Text.Length > 0 ? DocumentReader.ReadProcedure(header.Procedure.Text, "recorded procedure").Value : null;
        Trace trace = Reckoning.TraceOf(book, header, run.Events);
        // A trace of another recorder tells no states.
        if (trace.Segments.Count == 0)
            trace = trace with { Segments = SegmentFinder.Of(trace.Channels).Segments };
        FigureInput input = new(trace, article, procedure is null ? FigureContext.UsualRestSpeed : FigureContext.RestSpeedOf(procedure));
        return trace.Segments.Select(s => new FigureContext(input, s));
    }
}

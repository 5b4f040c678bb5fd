using RigControl.Analysis.Comparing;
using RigControl.Logbook;

namespace RigControl.Cli.Comparing;

/// <summary>A figure of one article from run to run.</summary>
internal sealed record RunTrend(string Figure, string Article, string Unit, bool Simulated, IReadOnlyList<(FigurePoint Run, TrendPoint Point)> Points)
{
    /// <exception cref="CliException">There is nothing to show; exit code 2.</exception>
    public static RunTrend Read(LogbookFile book, string figure, string? article)
    {
        article ??= book.Find(LogbookFile.Last).Article;
        IReadOnlyList<FigurePoint> all = book.FigureOverTime(figure, article);
        if (all.Count == 0)
            throw new CliException(ExitCode.BadInput, $"no run of {article} has a {figure}: `runs show RUN` lists the figures of a run");
        // Simulated and real ones never stand in one row; where there are both, the real ones are meant.
        bool simulated = all.All(p => p.Simulated);
        FigurePoint[] of = [.. all.Where(p => p.Simulated == simulated && p.Unit == all[^1].Unit)];
        return new RunTrend(figure, article, of[0].Unit, simulated, [.. of.Zip(Trend.Of([.. of.Select(p => p.Value)]))]);
    }
}

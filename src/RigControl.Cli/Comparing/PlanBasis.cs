using RigControl.Analysis.Fitting;
using RigControl.Logbook;

namespace RigControl.Cli.Comparing;

/// <summary>What a plan rests on: how large a figure is and how much it scatters from run to run while nothing is changed.</summary>
/// <param name="Mean">In the figure's unit; not a number where no run tells it.</param>
/// <param name="Scatter">Standard deviation, in the figure's unit.</param>
/// <param name="From">Where that is from, in words.</param>
/// <param name="Runs">Runs that have the figure, the latest of the article.</param>
internal sealed record PlanBasis(double Mean, double Scatter, string From, IReadOnlyList<string> Runs)
{
    // From two runs a scatter can come out as nothing by chance.
    private const int FewestKnown = 3;

    // What the article was like long ago says little of its scatter now.
    private const int Latest = 20;

    /// <param name="article">Name of the article; null for that of the last run.</param>
    /// <param name="scatter">As the operator says; null to read it from the runs.</param>
    /// <exception cref="CliException">Too little is known; exit code 2.</exception>
    public static PlanBasis Read(LogbookFile book, string figure, string? article, double? scatter)
    {
        if (scatter is { } given && !(given > 0 && double.IsFinite(given)))
            throw new CliException(ExitCode.BadInput, "--scatter is above 0");
        article ??= book.Runs() is { Count: > 0 } all ? all[^1].Article : null;
        IReadOnlyList<FigurePoint> points = article is null ? [] : book.FigureOverTime(figure, article);
        bool simulated = points.All(p => p.Simulated);
        FigurePoint[] last = [.. points.Where(p => p.Simulated == simulated).TakeLast(Latest)];
        string[] runs = [.. last.Select(p => p.Run)];
        double mean = last.Length > 0 ? last.Average(p => p.Value) : double.NaN;
        if (scatter is { } said)
            return new PlanBasis(mean, said, "as given", runs);
        double[][] alike = [.. last.GroupBy(p => Kind(book, p.Run)).Select(g => g.Select(p => p.Value).ToArray()).Where(v => v.Length > 1)];
        int freedom = alike.Sum(v => v.Length - 1);
        if (freedom < FewestKnown - 1)
            throw new CliException(ExitCode.BadInput, $"{(article is null ? "the logbook is empty" : $"{article} has {last.Length} runs with a {figure}{(last.Length >= FewestKnown ? ", too few of them alike" : "")}")}: make {FewestKnown} runs first, or say with --scatter how much it scatters from run to run");
        double squares = alike.Sum(v => Math.Pow(Summary.Deviation(v), 2) * (v.Length - 1));
        return new PlanBasis(mean, Math.Sqrt(squares / freedom), $"the last {last.Length} runs of {article}{(alike.Length > 1 ? ", each kind of them for itself" : "")}", runs);
    }

    // Runs with another article file or other tags are of another state, and what lies between states is no scatter.
    private static (string, string) Kind(LogbookFile book, string run) => (book.Header(run).Article.Text, string.Join(' ', book.Tags(run)));
}

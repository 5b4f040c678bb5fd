using System.CommandLine;
using System.Globalization;
using RigControl.Analysis.Comparing;
using RigControl.Analysis.Fitting;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Logbook;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>plan</c>: how many runs, and in which order, show a difference of a given size.</summary>
internal static class PlanCommand
{
    // Nobody swaps a part more often than that in a day.
    private const int MostRuns = 60;

    // From two runs a scatter can come out as nothing by chance.
    private const int FewestKnown = 3;

    // What the article was like long ago says little of its scatter now.
    private const int Latest = 20;

    public static Command Build()
    {
        Argument<string> a = new("A") { Description = "What the article has now; becomes a tag." };
        Argument<string> b = new("B") { Description = "What it is to have instead; becomes a tag." };
        Option<string> figure = new("--figure") { Description = "The figure to decide by.", HelpName = "NAME", Required = true };
        Option<string> resolution = new("--resolution") { Description = "Smallest difference worth knowing, such as 2 % of the figure or 0.05 in its unit.", HelpName = "SIZE", DefaultValueFactory = _ => "2 %" };
        Option<string?> article = new("--article") { Description = "Name of the article, whose last runs say how much the figure scatters. Default: that of the last run.", HelpName = "NAME" };
        Option<double?> scatter = new("--scatter") { Description = "Standard deviation from run to run in the figure's unit, where no runs tell it.", HelpName = "SIZE" };
        Option<bool> guide = new("--guide") { Description = "Goes through the plan at the terminal, and waits at every swap." };
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("plan", "Lays out an interleaved order of runs that shows a difference of the wanted size.") { a, b, figure, resolution, article, scatter, guide, logbook, json };
        command.SetAction(parsed =>
        {
            string[] tags = [parsed.GetValue(a)!, parsed.GetValue(b)!];
            if (tags.FirstOrDefault(t => !LogbookFile.IsTag(t)) is { } bad || tags[0] == tags[1])
                throw new CliException(ExitCode.BadInput, "A and B become tags: two different names of letters, digits, -, _ and . without spaces");
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            Basis basis = BasisOf(book, parsed.GetValue(figure)!, parsed.GetValue(article), parsed.GetValue(scatter));
            double size = SizeOf(parsed.GetValue(resolution)!, basis.Mean);
            int runs = basis.Scatter == 0 ? FewestKnown : TestPower.RunsFor(size, basis.Scatter, ComparedFigure.Level, MostRuns)
                ?? throw new CliException(ExitCode.BadInput, string.Create(CultureInfo.InvariantCulture, $"{parsed.GetValue(figure)} scatters by {basis.Scatter:G3} from run to run: more than {MostRuns} runs a side would be needed to see {size:G3}. Ask for a coarser resolution, or make the runs more alike"));
            string[] order = Order(tags, runs);
            if (parsed.GetValue(json))
                JsonText.Write(new { figure = parsed.GetValue(figure), resolution = size, scatter = basis.Scatter, from = basis.From, runsEach = runs, order, power = TestPower.Promised, level = ComparedFigure.Level });
            else
                Print(parsed.GetValue(figure)!, size, basis, runs, order, parsed.GetValue(guide));
            return ExitCode.Done;
        });
        return command;
    }

    private sealed record Basis(double Mean, double Scatter, string From);

    private static Basis BasisOf(LogbookFile book, string figure, string? article, double? scatter)
    {
        if (scatter is { } given && !(given > 0 && double.IsFinite(given)))
            throw new CliException(ExitCode.BadInput, "--scatter is above 0");
        article ??= book.Runs() is { Count: > 0 } all ? all[^1].Article : null;
        IReadOnlyList<FigurePoint> points = article is null ? [] : book.FigureOverTime(figure, article);
        bool simulated = points.All(p => p.Simulated);
        double[] values = [.. points.Where(p => p.Simulated == simulated).TakeLast(Latest).Select(p => p.Value)];
        if (scatter is { } said)
            return new Basis(values.Length > 0 ? Summary.Mean(values) : double.NaN, said, "as given");
        return values.Length >= FewestKnown
            ? new Basis(Summary.Mean(values), Summary.Deviation(values), $"the last {values.Length} runs of {article}")
            : throw new CliException(ExitCode.BadInput, $"{(article is null ? "the logbook is empty" : $"{article} has {values.Length} runs with a {figure}")}: make {FewestKnown} runs first, or say with --scatter how much it scatters from run to run");
    }

    private static double SizeOf(string text, double mean)
    {
        bool share = text.TrimEnd().EndsWith('%');
        if (!double.TryParse(text.TrimEnd().TrimEnd('%'), NumberStyles.Float, CultureInfo.InvariantCulture, out double size) || !(size > 0) || !double.IsFinite(size))
            throw new CliException(ExitCode.BadInput, $"'{text}' is no size above 0: write --resolution \"2 %\" or a number in the figure's unit");
        if (share && double.IsNaN(mean))
            throw new CliException(ExitCode.BadInput, "no run tells the figure's value, so a share of it is not known: write --resolution as a number in its unit");
        return share ? size / 100 * Math.Abs(mean) : size;
    }

    // A B B A, A B B A …: whatever drifts steadily is on both sides alike, with half the swaps of A B A B.
    private static string[] Order(string[] tags, int runs) => [.. Enumerable.Range(0, 2 * runs).Select(i => tags[i % 4 is 1 or 2 ? 1 : 0])];

    private static void Print(string figure, double size, Basis basis, int runs, string[] order, bool guide)
    {
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{figure} scatters by {basis.Scatter:G3} from run to run ({basis.From}); {runs} runs a side see a difference of {size:G3} four times out of five"));
        Console.WriteLine("before every run: the same pack charged alike and rested alike, and motor and controller as cool as before the first");
        for (int i = 0; i < order.Length; i++)
        {
            bool swap = i > 0 && order[i] != order[i - 1];
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i + 1,3}. {(swap ? $"swap to {order[i]}, then run" : i == 0 ? $"fit {order[i]}, then run" : $"leave {order[i]} in, run again")}; then: rigcontrol runs tag last {order[i]}"));
            if (guide && !Console.IsInputRedirected)
            {
                Console.Error.Write("     ENTER when it is done: ");
                Console.In.ReadLine();
            }
        }

        Console.WriteLine($"at the end: rigcontrol runs compare tag:{order[0]} tag:{order[1]}");
    }
}

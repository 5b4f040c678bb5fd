using System.CommandLine;
using System.Globalization;
using RigControl.Analysis.Comparing;
using RigControl.Cli.Comparing;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Logbook;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>plan</c>: how many runs, and in which order, show a difference of a given size.</summary>
internal static class PlanCommand
{
    // Nobody swaps a part more often than that in a day.
    private const int MostRuns = 60;

    // With fewer the scatter of a single day would decide.
    private const int FewestRuns = 3;

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
            PlanBasis basis = PlanBasis.Read(book, parsed.GetValue(figure)!, parsed.GetValue(article), parsed.GetValue(scatter));
            double size = SizeOf(parsed.GetValue(resolution)!, basis.Mean);
            PackCondition? pack = PackCondition.For(book, basis.Runs, size / Math.Abs(basis.Mean));
            int runs = basis.Scatter == 0 ? FewestRuns : TestPower.RunsFor(size, basis.Scatter, ComparedFigure.Level, MostRuns)
                ?? throw new CliException(ExitCode.BadInput, string.Create(CultureInfo.InvariantCulture, $"{parsed.GetValue(figure)} scatters by {basis.Scatter:G3} from run to run: more than {MostRuns} runs a side would be needed to see {size:G3}. Ask for a coarser resolution, or make the runs more alike"));
            string[] order = Order(tags, runs);
            if (parsed.GetValue(json))
                JsonText.Write(new { figure = parsed.GetValue(figure), resolution = size, scatter = basis.Scatter, from = basis.From, runsEach = runs, order, pack = pack is null ? null : new { from = pack.Low, to = pack.High, within = pack.Within }, power = TestPower.Promised, level = ComparedFigure.Level });
            else
                Print(parsed.GetValue(figure)!, size, basis, pack, runs, order, parsed.GetValue(guide));
            return ExitCode.Done;
        });
        return command;
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

    private static void Wait()
    {
        Console.Error.Write("     ENTER when it is done: ");
        if (Console.In.ReadLine() is null)
            throw new CliException(ExitCode.BadInput, "nobody is there to say that it is done: the plan without --guide is all of it");
    }

    private static void Print(string figure, double size, PlanBasis basis, PackCondition? pack, int runs, string[] order, bool guide)
    {
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{figure} scatters by {basis.Scatter:G3} from run to run ({basis.From}); {runs} runs a side see a difference of {size:G3} four times out of five"));
        Console.WriteLine($"before every run: the same pack charged alike and rested alike{pack?.Text}, and motor and controller as cool as before the first");
        for (int i = 0; i < order.Length; i++)
        {
            bool swap = i > 0 && order[i] != order[i - 1];
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i + 1,3}. {(swap ? $"swap to {order[i]}, then run" : i == 0 ? $"fit {order[i]}, then run" : $"leave {order[i]} in, run again")}; then: rigcontrol runs tag last {order[i]}"));
            if (guide)
                Wait();
        }

        Console.WriteLine($"at the end: rigcontrol runs compare tag:{order[0]} tag:{order[1]}");
    }
}

using System.CommandLine;
using System.Globalization;
using RigControl.Analysis.Comparing;
using RigControl.Cli.Comparing;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Logbook;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>runs compare</c> and <c>runs trend</c>: whether a change helped, and whether something is on its way out.</summary>
internal static class CompareCommands
{
    public static IEnumerable<Command> Build() => [Compare(), TrendOf()];

    private static Command Compare()
    {
        Argument<string[]> groups = new("RUN") { Description = RunGroup.HowToName + " The first is held against each other one.", Arity = ArgumentArity.OneOrMore };
        Option<bool> fail = new("--fail-on-change") { Description = "Exit code 6 where a figure changed by more than noise." };
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("compare", "Says per figure whether runs differ by more than noise.") { groups, fail, logbook, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            IReadOnlyList<RunComparison> compared = RunComparison.Of(book, Groups(book, parsed.GetValue(groups)!));
            if (parsed.GetValue(json))
                JsonText.Write(ComparisonDocument.Of(compared));
            else
                ComparisonDocument.Print(compared);
            return parsed.GetValue(fail) && compared.Any(c => c.Changed) ? ExitCode.Difference : ExitCode.Done;
        });
        return command;
    }

    /// <summary>Two or more sides, all simulated or all real.</summary>
    /// <exception cref="CliException">They cannot be compared; exit code 2.</exception>
    public static IReadOnlyList<RunGroup> Groups(LogbookFile book, IReadOnlyList<string> names)
    {
        if (names.Count < 2)
            throw new CliException(ExitCode.BadInput, $"name two sides to compare. {RunGroup.HowToName}");
        RunGroup[] groups = [.. names.Select(n => RunGroup.Read(book, n))];
        RunGroup.Check(groups);
        return groups;
    }

    private static Command TrendOf()
    {
        Argument<string> figure = new("FIGURE") { Description = "Name of the figure, such as coast-down-time." };
        Option<string?> article = new("--article") { Description = "Name of the article. Default: that of the last run.", HelpName = "NAME" };
        Option<bool> fail = new("--fail-on-change") { Description = "Exit code 6 where the last value is out of its band or values creep." };
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("trend", "A figure's values over time with the expected band, and a flag where one leaves it.") { figure, article, fail, logbook, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            RunTrend trend = RunTrend.Read(book, parsed.GetValue(figure)!, parsed.GetValue(article));
            if (parsed.GetValue(json))
                JsonText.Write(TrendDocument.Of(trend));
            else
                TrendDocument.Print(trend);
            return parsed.GetValue(fail) && trend.Points[^1] is { Point: { Outside: true } or { Creeping: not 0 } } ? ExitCode.Difference : ExitCode.Done;
        });
        return command;
    }
}

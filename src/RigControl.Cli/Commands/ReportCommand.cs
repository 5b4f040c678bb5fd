using System.CommandLine;
using RigControl.Cli.Comparing;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Reporting;
using RigControl.Logbook;
using RigControl.Reports.Pages;
using RigControl.Reports.Plots;
using RigControl.Runtime.Plugins;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>report</c>: one file that needs nothing else, of a run or of a comparison.</summary>
internal static class ReportCommand
{
    public static Command Build()
    {
        Argument<string[]> runs = new("RUN") { Description = $"One run for its report; two or more sides for the report of their comparison. {RunGroup.HowToName}", Arity = ArgumentArity.OneOrMore };
        Option<string?> output = new("--output") { Description = "File to write; - is standard output. Default: report-RUN.html.", HelpName = "FILE" };
        (Option<string?> logbook, Option<string?> plugins) = (CommonOptions.Logbook(), CommonOptions.Plugins());
        Command command = new("report", "Writes a report as one self-contained HTML file that prints well.") { runs, output, logbook, plugins };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            string[] named = parsed.GetValue(runs)!;
            string name = named.Length == 1 ? RunsCommand.Find(book, named[0]) : "comparison";
            string page = Drawn(() => named.Length == 1
                ? RunPage.Write(ReportReader.Run(book, name, PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder)))
                : ComparisonPage.Write([.. RunComparison.Of(book, CompareCommands.Groups(book, named)).Select(c => ReportReader.Comparison(book, c))]));
            Write(page, parsed.GetValue(output) ?? $"report-{name}.html");
            return ExitCode.Done;
        });
        return command;
    }

    private static string Drawn(Func<string> page)
    {
        try
        {
            return page();
        }
        catch (PlotException e)
        {
            throw new CliException(ExitCode.BadInput, e.Message);
        }
    }

    private static void Write(string page, string file)
    {
        if (file == "-")
        {
            Console.Out.Write(page);
            return;
        }

        using StreamWriter writer = new(OutputFile.Create(file));
        writer.Write(page);
        Console.WriteLine($"{Path.GetFullPath(file)} written");
    }
}

using System.CommandLine;
using RigControl.Analysis.Traces;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Reporting;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Reports.Plots;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>plot</c>: a picture of a run's channels.</summary>
internal static class PlotCommand
{
    public static Command Build()
    {
        Argument<string> run = RunsCommand.RunArgument();
        Option<string[]> channels = new("--channels") { Description = "Channels to draw, separated by commas or spaces. Default: the usual ones.", AllowMultipleArgumentsPerToken = true, HelpName = "NAME" };
        Option<string?> output = new("--output") { Description = "File ending in .png or .svg. Default: plot-RUN.png.", HelpName = "FILE" };
        Option<bool> fits = new("--fits") { Description = "Draws every fit of the run instead, each into a file of its own: data, curve, 95 % band and what is left over." };
        Option<string?> logbook = CommonOptions.Logbook();
        Command command = new("plot", "Draws channels of a run over time, as PNG or SVG.") { run, channels, output, fits, logbook };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            string found = RunsCommand.Find(book, parsed.GetValue(run)!);
            string file = parsed.GetValue(output) ?? $"plot-{found}.png";
            string ending = FitFiles.EndingOf(file);
            if (parsed.GetValue(fits))
                return FitFiles.Write(book, found, file, ending);
            Draw(book, found, parsed.GetValue(channels) ?? [], file, ending);
            Console.WriteLine($"{Path.GetFullPath(file)} written");
            return ExitCode.Done;
        });
        return command;
    }

    private static void Draw(LogbookFile book, string run, string[] wanted, string file, string ending)
    {
        RunHeader header = book.Header(run);
        IReadOnlyDictionary<string, Series> series = RunSeries.Read(book, header);
        string[] names = [.. wanted.SelectMany(w => w.Split(',', StringSplitOptions.RemoveEmptyEntries))];
        if (names.FirstOrDefault(n => !series.ContainsKey(n)) is { } unknown)
            throw new CliException(ExitCode.BadInput, $"run {run} has no channel {unknown}; it has {string.Join(", ", series.Keys.Order())}");
        IReadOnlyList<Panel> panels = Panel.Of((names.Length > 0 ? names : RunSeries.UsualOf(series)).Select(n => (n, series[n])));
        Moment[] moments = [.. book.Events(run).Where(e => e.Name == EventNames.Trip).Select(e => new Moment(e.At.TotalSeconds, e.Subject, true))];
        string title = $"{header.Procedure.Name} of {header.Article.Name}, run {run}{(header.Simulated ? ", simulated" : "")}";
        try
        {
            byte[] picture = ending == ".png" ? RunPlot.Png(panels, moments, title) : System.Text.Encoding.UTF8.GetBytes(RunPlot.Svg(panels, moments, title, "p"));
            using FileStream stream = OutputFile.Create(file);
            stream.Write(picture);
        }
        catch (PlotException e)
        {
            throw new CliException(ExitCode.BadInput, e.Message);
        }
    }
}

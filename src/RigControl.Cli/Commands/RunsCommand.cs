using System.CommandLine;
using System.Globalization;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>runs</c>: what the logbook holds.</summary>
internal static class RunsCommand
{
    public static Command Build()
    {
        Command list = List();
        Command command = new("runs", "Lists, shows, compares and exports recorded runs, and adds notes, tags and files to them.") { list, Show(), SuggestCommand.Build() };
        foreach (Command added in RemarkCommands.Build().Concat(CompareCommands.Build()).Concat(ExportCommands.Build()))
            command.Subcommands.Add(added);
        // A bare "runs" lists.
        foreach (Option option in list.Options)
            command.Options.Add(option);
        command.SetAction(parsed => ListAll(parsed, (Option<string?>)list.Options[0], (Option<bool>)list.Options[1]));
        return command;
    }

    private static Command List()
    {
        Option<string?> logbook = CommonOptions.Logbook();
        Option<bool> json = CommonOptions.Json();
        Command command = new("list", "Lists every run, the newest last.") { logbook, json };
        command.SetAction(parsed => ListAll(parsed, logbook, json));
        return command;
    }

    private static int ListAll(ParseResult parsed, Option<string?> logbook, Option<bool> json)
    {
        using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
        IReadOnlyList<RunSummary> runs = book.Runs();
        if (parsed.GetValue(json))
        {
            JsonText.Write(runs.Select(Describe));
            return ExitCode.Done;
        }

        foreach (RunSummary run in runs)
            Console.WriteLine($"{run.Run}  {Started(run)}  {OutcomeWords.Of(run),-10}  {run.Procedure} of {run.Article} on {run.Rig}{(run.Simulated ? " (simulated)" : "")}");
        if (runs.Count == 0)
            Console.WriteLine("the logbook holds no runs yet");
        LastSeconds.Tell(book);
        return ExitCode.Done;
    }

    private static Command Show()
    {
        (Argument<string> run, Option<string?> logbook, Option<bool> json) = (RunArgument(), CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("show", "Shows one run: outcome, trips, figures.") { run, logbook, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            RunRecord record = RunRecord.Read(book, Find(book, parsed.GetValue(run)!));
            if (parsed.GetValue(json))
                JsonText.Write(RunDocument.Of(record));
            else
                RunText.Print(record);
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>The run meant by a name, a beginning of one, or <c>last</c>.</summary>
    public static string Find(LogbookFile book, string name)
    {
        try
        {
            return book.Find(name).Run;
        }
        catch (UnknownRunException e)
        {
            throw new CliException(ExitCode.BadInput, e.Message);
        }
    }

    public static Argument<string> RunArgument() => new("RUN") { Description = "Name of the run, the beginning of it, or last." };

    private static string Started(RunSummary run) => run.StartedAt.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    private static object Describe(RunSummary run) => new
    {
        run = run.Run, procedure = run.Procedure, article = run.Article, rig = run.Rig,
        startedAt = run.StartedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture),
        outcome = OutcomeWords.Of(run), simulated = run.Simulated,
    };
}

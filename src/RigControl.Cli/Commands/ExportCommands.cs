using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>runs export</c> and <c>runs figures</c>: the record for other programs.</summary>
internal static class ExportCommands
{
    public static IEnumerable<Command> Build() => [Export(), Figures()];

    private static Command Export()
    {
        (Argument<string> run, Option<string?> logbook, Option<string> format, Option<string> output) = (RunsCommand.RunArgument(), CommonOptions.Logbook(), Format(), Output());
        Command command = new("export", "Writes the samples of a run as a trace; as JSON with all else that is known of it.") { run, logbook, format, output };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            string found = RunsCommand.Find(book, parsed.GetValue(run)!);
            if (book.PrunedAt(found) is { } pruned)
                Console.Error.WriteLine($"the samples of run {found} were taken away on {pruned.UtcDateTime:yyyy-MM-dd}, but for the seconds around a trip");
            Write(parsed.GetValue(format)!, parsed.GetValue(output)!,
                writer => TraceExport.WriteCsv(book, found, writer),
                stream => ParquetExport.WriteTraceAsync(book, found, stream),
                writer => writer.WriteLine(JsonText.Of(new { run = RunDocument.Of(RunRecord.Read(book, found)), trace = TraceOf(book, found) })));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Figures()
    {
        (Option<string?> logbook, Option<string> format, Option<string> output) = (CommonOptions.Logbook(), Format(), Output());
        Command command = new("figures", "Writes the table of all figures of all runs.") { logbook, format, output };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            IReadOnlyList<FigureRow> rows = book.AllFigures();
            Write(parsed.GetValue(format)!, parsed.GetValue(output)!,
                writer => FigureExport.WriteCsv(rows, writer),
                stream => ParquetExport.WriteFiguresAsync(rows, stream),
                writer => writer.WriteLine(JsonText.Of(rows.Select(Row))));
            return ExitCode.Done;
        });
        return command;
    }

    private static object Row(FigureRow row) => new
    {
        run = row.Run.Run, startedAt = row.Run.StartedAt.UtcDateTime, procedure = row.Run.Procedure, article = row.Run.Article, rig = row.Run.Rig,
        simulated = row.Run.Simulated, outcome = OutcomeWords.Of(row.Run), figure = RunDocument.Of(row.Figure),
    };

    // A column per channel: far smaller than a row per sample, and what a plotting program wants.
    private static IEnumerable<object> TraceOf(LogbookFile book, string run)
    {
        TraceRows rows = new(book, run);
        (List<double> Times, List<double> Values)[] columns = [.. rows.Channels.Select(_ => (new List<double>(), new List<double>()))];
        foreach ((TimeSpan at, double[] cells) in rows.Read())
        {
            for (int i = 0; i < cells.Length; i++)
            {
                if (double.IsNaN(cells[i]))
                    continue;
                columns[i].Times.Add(at.TotalSeconds);
                columns[i].Values.Add(cells[i]);
            }
        }

        return rows.Channels.Select((c, i) => new { channel = c.Name, unit = c.Declaration.Unit, times = columns[i].Times, values = columns[i].Values });
    }

    private static void Write(string format, string output, Action<TextWriter> csv, Func<Stream, Task> parquet, Action<TextWriter> json)
    {
        if (format == "parquet")
        {
            WriteParquet(output, parquet);
            return;
        }

        using TextWriter writer = output == "-" ? Console.Out : new StreamWriter(OutputFile.Create(output));
        (format == "csv" ? csv : json)(writer);
    }

    // Its end says where its parts are, so it is made where it can be sought.
    private static void WriteParquet(string output, Func<Stream, Task> write)
    {
        if (output == "-" && !Console.IsOutputRedirected)
            throw new CliException(ExitCode.BadInput, "a Parquet file is not for a terminal: name one with --output");
        using Stream stream = output == "-" ? new MemoryStream() : OutputFile.Create(output);
        write(stream).GetAwaiter().GetResult();
        if (stream is not MemoryStream memory)
            return;
        using Stream standard = Console.OpenStandardOutput();
        memory.WriteTo(standard);
    }

    private static Option<string> Format()
    {
        Option<string> format = new("--format") { Description = "csv, parquet or json.", DefaultValueFactory = _ => "csv" };
        format.AcceptOnlyFromAmong("csv", "parquet", "json");
        return format;
    }

    private static Option<string> Output() => new("--output") { Description = "File to write; - is standard output, the default.", DefaultValueFactory = _ => "-" };
}

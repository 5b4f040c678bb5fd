using System.CommandLine;
using System.Globalization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Documents.Traces;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>enter</c> and <c>import</c>: runs without a rig, from hand instruments and from other recorders.</summary>
internal static class ForeignCommands
{
    public static Command Enter()
    {
        Argument<string[]> readings = new("READING") { Description = $"{TypedReading.HowToWrite}; - reads one a line from standard input.", Arity = ArgumentArity.OneOrMore };
        (Option<string?> article, Option<string> procedure, Option<DateTimeOffset?> at, Option<string?> note) = Common("typed-readings");
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("enter", "Keeps readings of hand instruments as a run, their step as uncertainty.") { readings, article, procedure, at, note, logbook, json };
        command.SetAction(parsed =>
        {
            Figure[] figures = [.. Lines(parsed.GetValue(readings)!).SelectMany(TypedReading.Read)];
            foreach (string unknown in figures.Select(f => f.Name).Except(FigureCatalog.Names).Distinct())
                Console.Error.WriteLine($"{unknown} is no figure that this program computes; it is kept as typed");
            (Article? _, DocumentCopy copy) = ArticleOf(parsed.GetValue(article));
            RunHeader header = ForeignRun.Header(ForeignRun.ByHand, copy, parsed.GetValue(procedure)!, parsed.GetValue(at) ?? DateTimeOffset.UtcNow, []);
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            ForeignRun.Write(book, header, null, figures, "readings of hand instruments");
            return Finish(book, header.Run, parsed.GetValue(note), null, parsed.GetValue(json));
        });
        return command;
    }

    public static Command Import()
    {
        Argument<string> trace = new("TRACE.csv") { Description = "Trace with a header such as `time [s],rotor.speed [rpm]`; - is standard input." };
        (Option<string?> article, Option<string> procedure, Option<DateTimeOffset?> at, Option<string?> note) = Common("imported-trace");
        Option<double> rest = new("--rest-speed") { Description = "Speed at which a coast-down counts as done, rpm.", HelpName = "RPM", DefaultValueFactory = _ => FigureContext.UsualRestSpeed };
        Option<bool> simulated = new("--simulated") { Description = "The trace comes from a simulation; it is then never compared with real runs." };
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("import", "Keeps a trace of another recorder as a run, with its figures.") { trace, article, procedure, at, note, rest, simulated, logbook, json };
        command.SetAction(parsed =>
        {
            if (!(parsed.GetValue(rest) > 0))
                throw new CliException(ExitCode.BadInput, "--rest-speed is above 0 rpm");
            string file = parsed.GetValue(trace)!;
            RecordedTrace recorded = TraceFile.Read(file);
            (Article? declared, DocumentCopy copy) = ArticleOf(parsed.GetValue(article));
            TraceAnalysis analysis = TraceAnalysis.Of(TraceFile.TraceOf(recorded), declared, parsed.GetValue(rest), null);
            RunHeader header = ForeignRun.Header(ForeignRun.Imported, copy, parsed.GetValue(procedure)!, parsed.GetValue(at) ?? DateTimeOffset.UtcNow, ForeignRun.ChannelsOf(recorded)) with { Simulated = parsed.GetValue(simulated) };
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            ForeignRun.Write(book, header, recorded, [.. analysis.Figures.Where(f => f.Value is not null)], string.Join("; ", ["a trace of another recorder", .. analysis.Notes]));
            return Finish(book, header.Run, parsed.GetValue(note), file, parsed.GetValue(json));
        });
        return command;
    }

    private static (Option<string?>, Option<string>, Option<DateTimeOffset?>, Option<string?>) Common(string usual) =>
    (
        new("--article") { Description = "Article file, or only the article's name.", HelpName = "FILE|NAME", Required = true },
        new("--procedure") { Description = "What was done, in a word.", HelpName = "NAME", DefaultValueFactory = _ => usual },
        new("--at") { Description = "When it was done, such as 2031-05-04T18:30. Default: now.", HelpName = "TIME", CustomParser = Time },
        new("--note") { Description = "A note to go with it.", HelpName = "TEXT" }
    );

    private static DateTimeOffset? Time(System.CommandLine.Parsing.ArgumentResult result)
    {
        if (DateTimeOffset.TryParse(result.Tokens[0].Value, CultureInfo.InvariantCulture, DateTimeStyles.AssumeLocal, out DateTimeOffset time))
            return time;
        result.AddError($"'{result.Tokens[0].Value}' is no time: write it as 2031-05-04T18:30");
        return null;
    }

    private static IEnumerable<string> Lines(string[] readings) =>
        readings is ["-"] ? Console.In.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) : readings;

    // A name without a file is enough where no figure needs the article's data.
    private static (Article?, DocumentCopy) ArticleOf(string? named)
    {
        if (!File.Exists(named) && named!.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_'))
            return (null, new DocumentCopy(named!, ""));
        (Article article, string text) = TraceFile.Article(named!);
        return (article, new DocumentCopy(article.Name, text));
    }

    private static int Finish(LogbookFile book, string run, string? note, string? file, bool json)
    {
        if (!string.IsNullOrWhiteSpace(note))
            book.Remark(run, new Remark(RemarkKind.Note, DateTimeOffset.UtcNow, Environment.UserName, "", note, null));
        if (file is not null and not "-")
            book.Attach(run, RemarkCommands.Digest(file, null));
        RunRecord record = RunRecord.Read(book, run);
        if (json)
            JsonText.Write(RunDocument.Of(record));
        else
            RunText.Print(record);
        return ExitCode.Done;
    }
}

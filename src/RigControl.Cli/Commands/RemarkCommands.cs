using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>runs note</c>, <c>incident</c>, <c>part</c>, <c>tag</c> and <c>attach</c>: what a person adds to a run.</summary>
internal static class RemarkCommands
{
    public static IEnumerable<Command> Build() => [Note(), Incident(), Part(), Tag(), Attach()];

    private static Command Note()
    {
        (Argument<string> text, Option<double?> at) = (Text("What is worth remembering."), At());
        return OnRun("note", "Writes a note to a run.", [text, at], (book, run, parsed) =>
            Write(book, run, parsed, RemarkKind.Note, "", parsed.GetValue(text)!, parsed.GetValue(at)));
    }

    private static Command Incident()
    {
        (Argument<string> text, Option<double?> at) = (Text("What went wrong, or nearly did."), At());
        return OnRun("incident", "Writes an incident to a run: what went wrong, or nearly did.", [text, at], (book, run, parsed) =>
            Write(book, run, parsed, RemarkKind.Incident, "", parsed.GetValue(text)!, parsed.GetValue(at)));
    }

    private static Command Part()
    {
        Argument<string> part = new("PART") { Description = "The part that was changed, such as belt." };
        Argument<string> text = Text("What it is now.");
        return OnRun("part", "Says which part of the article was changed before a run.", [part, text], (book, run, parsed) =>
            Write(book, run, parsed, RemarkKind.PartChanged, parsed.GetValue(part)!, parsed.GetValue(text)!, null));
    }

    private static Command Tag()
    {
        Argument<string[]> tags = new("TAG") { Description = "Letters, digits, -, _ and . only.", Arity = ArgumentArity.OneOrMore };
        Option<bool> remove = new("--remove") { Description = "Takes the tags away." };
        return OnRun("tag", "Tags a run, so that it can be compared as one of a group: tag:NAME.", [tags, remove], (book, run, parsed) =>
        {
            string[] all = parsed.GetValue(tags)!;
            if (all.FirstOrDefault(t => !LogbookFile.IsTag(t)) is { } bad)
                throw new CliException(ExitCode.BadInput, $"'{bad}' is no tag: write up to {LogbookFile.TagLength} letters, digits, -, _ and . without spaces");
            foreach (string tag in all)
            {
                if (!parsed.GetValue(remove))
                    book.Tag(run, tag);
                else if (!book.Untag(run, tag))
                    Console.Error.WriteLine($"run {run} has no tag {tag}");
            }
        });
    }

    private static Command Attach()
    {
        Argument<string[]> files = new("FILE") { Description = "Clips, photographs, traces. They stay where they are.", Arity = ArgumentArity.OneOrMore };
        return OnRun("attach", "Keeps path and digest of files that belong to a run.", [files], (book, run, parsed) =>
        {
            foreach (string file in parsed.GetValue(files)!)
                book.Attach(run, Digest(file, null));
        });
    }

    /// <summary>A file as it is now.</summary>
    /// <exception cref="CliException">It cannot be read; exit code 2.</exception>
    public static Attachment Digest(string file, double? offset)
    {
        try
        {
            return FileDigest.Of(file, DateTimeOffset.UtcNow, offset);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file}: cannot be read: {e.Message.TrimEnd('.')}; name a file that exists and may be read");
        }
    }

    private static void Write(LogbookFile book, string run, ParseResult parsed, RemarkKind kind, string subject, string text, double? at)
    {
        if (string.IsNullOrWhiteSpace(text) || text.Length > LogbookFile.RemarkLength || (kind == RemarkKind.PartChanged && string.IsNullOrWhiteSpace(subject)))
            throw new CliException(ExitCode.BadInput, $"write 1 to {LogbookFile.RemarkLength} characters");
        if (at is { } time && !double.IsFinite(time))
            throw new CliException(ExitCode.BadInput, "--at is a time in seconds from the start of the run");
        book.Remark(run, new Remark(kind, DateTimeOffset.UtcNow, Environment.UserName, subject, text, at));
        if (!parsed.GetValue<bool>("--json"))
            Console.WriteLine($"written to run {run}");
    }

    private static Command OnRun(string name, string description, Symbol[] symbols, Action<LogbookFile, string, ParseResult> act)
    {
        (Argument<string> run, Option<string?> logbook, Option<bool> json) = (RunsCommand.RunArgument(), CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new(name, description) { run };
        foreach (Symbol symbol in symbols)
        {
            if (symbol is Argument argument)
                command.Arguments.Add(argument);
            else
                command.Options.Add((Option)symbol);
        }

        command.Options.Add(logbook);
        command.Options.Add(json);
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            string found = RunsCommand.Find(book, parsed.GetValue(run)!);
            act(book, found, parsed);
            if (parsed.GetValue(json))
                Output.JsonText.Write(Output.AdditionsDocument.Of(found, RunAdditions.Read(book, found)));
            return ExitCode.Done;
        });
        return command;
    }

    private static Argument<string> Text(string description) => new("TEXT") { Description = description };

    private static Option<double?> At() => new("--at") { Description = "Time of the run that it is about, s.", HelpName = "SECONDS" };
}

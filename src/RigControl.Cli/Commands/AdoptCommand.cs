using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Rehearsals;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>adopt</c>: writes what a run measured into the article's file, with its history. Besides <c>runs suggest</c>, nothing else ever changes an article.</summary>
internal static class AdoptCommand
{
    public static Command Build()
    {
        Argument<string> run = new("RUN") { Description = "Name of a run, its beginning, or last." };
        Option<string> article = new("--article") { Description = "Article file to write into.", HelpName = "FILE", Required = true };
        Option<string?> logbook = CommonOptions.Logbook();
        Option<bool> dry = new("--dry-run") { Description = "Says what would change and writes nothing." };
        Option<bool> simulated = new("--even-simulated") { Description = "Takes a simulated run too: for trying this out, never for a real machine's file." };
        Command command = new("adopt", "Writes what a run measured of motor and pack into the article's file, with its uncertainty and a line of history.")
        {
            run, article, logbook, dry, simulated,
        };
        command.SetAction(parsed => Adopt(
            parsed.GetValue(run)!, parsed.GetValue(article)!, parsed.GetValue(logbook), parsed.GetValue(dry), parsed.GetValue(simulated)));
        return command;
    }

    private static int Adopt(string name, string file, string? logbook, bool dry, bool simulated)
    {
        using LogbookFile book = LogbookFile.Open(logbook ?? Logbooks.DefaultPath);
        string run = book.Find(name).Run;
        RunHeader header = book.Header(run);
        if (header.Simulated && !simulated)
            throw new CliException(ExitCode.BadInput, $"run {run} was simulated: it measured the model and not a machine; choose a real run");
        string before = ReadFile(file);
        Adoption adoption = Adoption.Of(before, header, [.. book.Figures(run)], file, WindingWarmth.Of(Reckoning.TraceOf(book, header, book.Events(run))));
        foreach (string change in adoption.Changes.Concat(adoption.Left))
            Console.WriteLine(change);
        if (!dry)
            WriteFile(file, adoption.Text);
        Console.WriteLine(dry ? $"{file} is left as it was" : $"{file} is written; the run keeps the article as it was");
        return ExitCode.Done;
    }

    internal static string ReadFile(string file)
    {
        try
        {
            return File.ReadAllText(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file}: cannot be read: {e.Message.TrimEnd('.')}; name a file that exists and may be read");
        }
    }

    // Whole or not at all: a pulled plug leaves the old file.
    internal static void WriteFile(string file, string text)
    {
        try
        {
            File.WriteAllText(file + ".new", text);
            File.Move(file + ".new", file, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file}: cannot be written: {e.Message}; nothing was changed");
        }
    }
}

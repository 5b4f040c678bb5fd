using System.CommandLine;
using System.Globalization;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Logbook;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>logbook</c>: sees that the record is sound, doubles it, and makes it smaller.</summary>
internal static class LogbookCommand
{
    public static Command Build() => new("logbook", "Verifies, backs up and prunes the logbook.") { Verify(), Backup(), Prune() };

    private static Command Verify()
    {
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("verify", "Reads everything, and says what is damaged, missing or changed. Changes nothing. Exit code 5 where something is.") { logbook, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = OpenExisting(parsed.GetValue(logbook));
            Soundness found = book.Verify();
            if (parsed.GetValue(json))
                JsonText.Write(new { logbook = book.Path, sound = found.IsSound, runs = found.Runs, scans = found.Scans, samples = found.Samples, damage = found.Damage, notes = found.Notes });
            else
                Print(book.Path, found);
            return found.IsSound ? ExitCode.Done : ExitCode.DeviceOrStorage;
        });
        return command;
    }

    private static void Print(string path, Soundness found)
    {
        foreach (string note in found.Notes)
            Console.WriteLine(note);
        foreach (string damage in found.Damage)
            Console.WriteLine($"damaged: {damage}");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{path}: {found.Runs} runs, {found.Scans} scans, {found.Samples} samples read; {(found.IsSound ? "sound" : $"{found.Damage.Count} damages: keep a copy as it is, and go back to a backup")}"));
    }

    private static Command Backup()
    {
        Argument<string> to = new("TO") { Description = "File to write; it must not exist." };
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("backup", "Writes a copy of the logbook, also while runs are being recorded.") { to, logbook, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = OpenExisting(parsed.GetValue(logbook));
            string file = Path.GetFullPath(parsed.GetValue(to)!);
            if (Path.Exists(file))
                throw new CliException(ExitCode.BadInput, $"{file} exists already and is left as it is: name a file that does not exist");
            long bytes = book.Backup(file);
            if (parsed.GetValue(json))
                JsonText.Write(new { backup = file, bytes });
            else
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{file}: {bytes / 1048576.0:0.0} MiB written"));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Prune()
    {
        Argument<string[]> runs = new("RUN") { Description = "Runs to prune.", Arity = ArgumentArity.ZeroOrMore };
        Option<DateTimeOffset?> before = new("--before") { Description = "Prunes every run that started before this day.", HelpName = "DATE", CustomParser = Day };
        Option<bool> yes = new("--yes") { Description = "Does not ask." };
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("prune", "Takes the samples of runs away for good and keeps their figures, events, notes and the seconds around every trip. Asks before it does.") { runs, before, yes, logbook, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = OpenExisting(parsed.GetValue(logbook));
            string[] wanted = Wanted(book, parsed.GetValue(runs) ?? [], parsed.GetValue(before));
            long bytes = wanted.Sum(book.BlockBytes);
            if (wanted.Length > 0 && !parsed.GetValue(yes))
                Ask(wanted.Length, bytes);
            IReadOnlyList<string> pruned = book.Prune(wanted, DateTimeOffset.UtcNow);
            bytes -= wanted.Sum(book.BlockBytes);
            if (pruned.Count > 0)
                book.Shrink();
            if (parsed.GetValue(json))
                JsonText.Write(new { pruned, bytes });
            else
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{pruned.Count} runs pruned, {bytes / 1048576.0:0.0} MiB of samples taken away; their figures stay, and the seconds around every trip"));
            return ExitCode.Done;
        });
        return command;
    }

    private static string[] Wanted(LogbookFile book, string[] named, DateTimeOffset? before)
    {
        if (named.Length == 0 && before is null)
            throw new CliException(ExitCode.BadInput, "name runs, or a day with --before");
        IEnumerable<string> old = before is { } day ? book.RunsBetween(DateTimeOffset.MinValue, day).Select(r => r.Run) : [];
        string[] all = [.. named.Select(n => RunsCommand.Find(book, n)).Concat(old).Distinct().Where(r => book.PrunedAt(r) is null)];
        foreach (string open in all.Where(r => book.End(r) is null))
            Console.Error.WriteLine($"run {open} has no end and is left alone");
        return [.. all.Where(r => book.End(r) is not null)];
    }

    private static void Ask(int runs, long bytes)
    {
        if (Console.IsInputRedirected)
            throw new CliException(ExitCode.Refused, "refused: nobody can be asked, since standard input is no terminal; say --yes");
        Console.Error.Write(string.Create(CultureInfo.InvariantCulture, $"take {bytes / 1048576.0:0.0} MiB of samples of {runs} runs away for good? They can then be neither replayed nor plotted, but for the seconds around a trip. yes/no: "));
        if (Console.In.ReadLine()?.Trim() is not ("yes" or "y"))
            throw new CliException(ExitCode.Refused, "nothing was taken away");
    }

    private static DateTimeOffset? Day(System.CommandLine.Parsing.ArgumentResult result)
    {
        if (DateTimeOffset.TryParseExact(result.Tokens[0].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset day))
            return day;
        result.AddError($"'{result.Tokens[0].Value}' is no day: write it as 2031-05-04");
        return null;
    }

    // A mistyped name must not make an empty logbook and call it sound.
    private static LogbookFile OpenExisting(string? named)
    {
        string path = named ?? Logbooks.DefaultPath;
        return File.Exists(path) || Directory.Exists(path) ? LogbookFile.Open(path) : throw new CliException(ExitCode.BadInput, $"{path}: there is no such logbook; name one with --logbook");
    }
}

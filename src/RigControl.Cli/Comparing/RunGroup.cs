using System.Globalization;
using RigControl.Cli.Commands;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;

namespace RigControl.Cli.Comparing;

/// <summary>One side of a comparison.</summary>
/// <param name="Label">As it was asked for.</param>
/// <param name="Runs">The oldest first.</param>
internal sealed record RunGroup(string Label, IReadOnlyList<RunRecord> Runs)
{
    public const string HowToName = "A run, several joined by +, tag:NAME, date:2031-05-04 or date:FIRST..LAST.";

    public bool Simulated => Runs[0].Header.Simulated;

    public bool ByHand => Runs.All(r => r.Header.Channels.Count == 0);

    /// <summary>The runs that were meant; those that never got as far as a figure are left out.</summary>
    /// <exception cref="CliException">There is none; exit code 2.</exception>
    public static RunGroup Read(LogbookFile book, string text)
    {
        string[] names = text.StartsWith("tag:", StringComparison.Ordinal) ? [.. book.RunsTagged(text[4..]).Select(r => r.Run)]
            : text.StartsWith("date:", StringComparison.Ordinal) ? [.. Dated(book, text).Select(r => r.Run)]
            : [.. text.Split('+', StringSplitOptions.RemoveEmptyEntries).Select(n => RunsCommand.Find(book, n)).Distinct()];
        RunRecord[] runs = [.. names.Select(n => RunRecord.Read(book, n)).Where(r => r.Figures.Any(f => f.Value is not null)).OrderBy(r => r.Header.StartedAt)];
        return runs.Length > 0
            ? new RunGroup(text, runs)
            : throw new CliException(ExitCode.BadInput, names.Length == 0 ? $"no run is meant by '{text}': `runs list` shows those there are" : $"'{text}' has no figure to compare: its runs ended before there was one");
    }

    /// <summary>Simulated and real runs have nothing to do with each other.</summary>
    /// <exception cref="CliException">They are mixed, or one run stands on two sides; exit code 2.</exception>
    public static void Check(IReadOnlyList<RunGroup> groups)
    {
        RunRecord[] all = [.. groups.SelectMany(g => g.Runs)];
        if (all.Select(r => r.Header.Simulated).Distinct().Count() > 1)
            throw new CliException(ExitCode.BadInput, $"simulated and real runs are never compared: {all.First(r => r.Header.Simulated).Header.Run} is simulated, {all.First(r => !r.Header.Simulated).Header.Run} is real");
        if (all.GroupBy(r => r.Header.Run).FirstOrDefault(g => g.Count() > 1) is { } twice)
            throw new CliException(ExitCode.BadInput, $"run {twice.Key} stands on more than one side: a run cannot be compared with itself");
    }

    private static IReadOnlyList<RunSummary> Dated(LogbookFile book, string text)
    {
        string[] days = text[5..].Split("..");
        if (days.Length > 2 || Day(days[0]) is not { } first || Day(days[^1]) is not { } last || last < first)
            throw new CliException(ExitCode.BadInput, $"'{text}' is no day: write date:2031-05-04 or date:2031-05-04..2031-05-06");
        return book.RunsBetween(first, last.AddDays(1));
    }

    private static DateTimeOffset? Day(string text) =>
        DateTimeOffset.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset day) ? day : null;
}

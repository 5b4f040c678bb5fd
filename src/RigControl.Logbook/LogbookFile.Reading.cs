using RigControl.Logbook.Storage;
using RigControl.Logbook.Texts;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>What can be read of the runs. A run is asked for by its whole name, which <see cref="Find"/> finds.</summary>
public sealed partial class LogbookFile
{
    /// <summary>What <see cref="Find"/> takes for the run that started last.</summary>
    public const string Last = "last";

    private const string SummaryColumns = "select name, started_at, procedure, article, rig, simulated, outcome from run";

    /// <summary>Every run, the newest last.</summary>
    public IReadOnlyList<RunSummary> Runs() => ReadAll(_database.Query($"{SummaryColumns} order by started_at, id"), Summary);

    /// <summary>Every run, the last to be written last, whatever the wall clock showed: for what has to know what came after what.</summary>
    public IReadOnlyList<RunSummary> RunsAsRecorded() => ReadAll(_database.Query($"{SummaryColumns} order by id"), Summary);

    /// <summary>The run of this name, or the only one whose name starts so, or the "last".</summary>
    /// <exception cref="UnknownRunException">There is none, or more than one.</exception>
    public RunSummary Find(string name)
    {
        IReadOnlyList<RunSummary> found = name == Last
            ? ReadAll(_database.Query($"{SummaryColumns} order by started_at desc, id desc limit 1"), Summary)
            : ReadAll(_database.Query($"{SummaryColumns} where substr(name, 1, length($1)) = $1 order by started_at, id", name), Summary);
        RunSummary? exact = found.FirstOrDefault(run => run.Run == name);
        if (exact is not null || found.Count == 1)
            return exact ?? found[0];
        throw new UnknownRunException(NotOne(name, found));
    }

    private string NotOne(string name, IReadOnlyList<RunSummary> found)
    {
        if (found.Count == 0)
            return name == Last ? $"The logbook {Path} has no run yet: record one first." : $"The logbook {Path} has no run '{name}': `runs list` shows those it has.";
        string some = string.Join(", ", found.Take(5).Select(run => run.Run));
        return $"{found.Count} runs start with '{name}' ({some}{(found.Count > 5 ? ", …" : "")}): write more letters.";
    }

    /// <summary>Everything that was known before the run's first scan.</summary>
    public RunHeader Header(string run) =>
        Undamaged(() => HeaderText.Read(ReadAll(_database.Query("select header from run where id = $1", NumberOf(run)), row => row.Text(0))[0]));

    /// <summary>How the run ended; null where nobody wrote an end.</summary>
    public RunEnd? End(string run) =>
        ReadAll(_database.Query("select outcome, ended_at, note from run where id = $1 and outcome is not null", NumberOf(run)), row =>
            new RunEnd(OutcomeNames.Parse(row.Text(0)), WallTime.Read(row.Text(1)), row.TextOrNull(2))).FirstOrDefault();

    /// <summary>Scan records in order, one after the other in the same place. See <see cref="ScanSequence"/> for what is kept of demands.</summary>
    public ScanSequence Scans(string run) => new(_database, NumberOf(run));

    /// <summary>Samples of one device in the order in which they were folded, so that a watermark counts them.</summary>
    /// <param name="device">Place in <see cref="RunHeader.Devices"/>.</param>
    public IEnumerable<Sample> Samples(string run, int device) =>
        SampleSequence.Of(_database, NumberOf(run), device, ReadingSteps.Of(Header(run)));

    /// <summary>Samples of all devices in the order of their times; those of one time in the order of devices and of folding.</summary>
    public IEnumerable<Sample> SamplesByTime(string run) =>
        new SamplesByTime(_database, NumberOf(run), ReadingSteps.Of(Header(run))).Read();

    /// <summary>The samples of all devices from a time on, in the order of their times.</summary>
    /// <param name="since">Earliest time, since the session's clock started.</param>
    public IEnumerable<Sample> SamplesSince(string run, TimeSpan since) =>
        new SamplesByTime(_database, NumberOf(run), ReadingSteps.Of(Header(run)), since).Read();

    /// <summary>The last scan that was recorded, or null where none was.</summary>
    public ScanRecord? LastScan(string run)
    {
        ScanRecord? last = null;
        foreach (ref readonly ScanRecord scan in new ScanSequence(_database, NumberOf(run), lastBlockOnly: true))
            last = scan;
        return last;
    }

    /// <summary>Events in the order in which they were written.</summary>
    public IReadOnlyList<RigEvent> Events(string run) =>
        ReadAll(_database.Query("select at, scan, name, subject, text, data from event where run = $1 order by id", NumberOf(run)), row =>
            new RigEvent(TimeSpan.FromTicks(row.Number(0)), row.Number(1), row.Text(2), row.Text(3), row.Text(4), EventData.Read(row.Text(5))));

    /// <summary>Figures in the order in which they were written.</summary>
    public IReadOnlyList<Figure> Figures(string run) =>
        ReadAll(_database.Query("select name, value, unit, standard_uncertainty, low, high, repeat, method, note, budget from figure where run = $1 order by id", NumberOf(run)), row =>
            new Figure(row.Text(0), row.Real(1), row.Text(2), row.Real(3), Interval(row.Real(4), row.Real(5)), (int)row.Number(6), row.Text(7), row.TextOrNull(8)) { Budget = BudgetData.Read(row.TextOrNull(9)) });

    private static (double, double)? Interval(double? low, double? high) => low is { } from && high is { } to ? (from, to) : null;

    private RunSummary Summary(Rows row) => new(
        row.Text(0), WallTime.Read(row.Text(1)), row.Text(2), row.Text(3), row.Text(4), row.Number(5) != 0, Outcome(row.Text(0), row.TextOrNull(6)));

    private RunOutcome? Outcome(string run, string? written) =>
        written is not null ? OutcomeNames.Parse(written) : RunMark.IsHeld(Path, run) ? null : RunOutcome.BrokenOff;

    private long? TryFindNumber(string run)
    {
        using Rows rows = _database.Query("select id from run where name = $1", run);
        return rows.Next() ? rows.Number(0) : null;
    }

    private long NumberOf(string run) => TryFindNumber(run) ?? throw new UnknownRunException(NotOne(run, []));

    private IReadOnlyList<T> ReadAll<T>(Rows rows, Func<Rows, T> read)
    {
        using (rows)
        {
            return Undamaged(() =>
            {
                List<T> all = [];
                while (rows.Next())
                    all.Add(read(rows));
                return all;
            });
        }
    }

    private T Undamaged<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception fault) when (fault is InvalidDataException or InvalidCastException)
        {
            throw StorageFault.Damaged(Path, fault);
        }
    }
}

using RigControl.Logbook.Texts;
using RigControl.Model.Records;

namespace RigControl.Logbook.Storage;

/// <summary>The rows of one run: one prepared statement per kind of row.</summary>
internal sealed class RunTables(Database database, long run) : IDisposable
{
    private readonly Statement _scans = database.Prepare(
        "insert into scan_block (run, first_scan, count, first_now, data) values ($1, $2, $3, $4, $5)");

    private readonly Statement _samples = database.Prepare(
        "insert into sample_block (run, device, first, count, first_at, last_at, data) values ($1, $2, $3, $4, $5, $6, $7)");

    private readonly Statement _event = database.Prepare(
        "insert into event (run, at, scan, name, subject, text, data) values ($1, $2, $3, $4, $5, $6, $7)");

    /// <summary>Adds the run's own row and gives its number in the file.</summary>
    public static long AddRun(Database database, RunHeader header)
    {
        using Rows added = database.Query(
            "insert into run (name, started_at, procedure, article, rig, simulated, header) values ($1, $2, $3, $4, $5, $6, $7) returning id",
            header.Run, WallTime.Write(header.StartedAt), header.Procedure.Name, header.Article.Name, header.Rig.Name, header.Simulated, HeaderText.Write(header));
        added.Next();
        return added.Number(0);
    }

    public void AddScans(long first, int count, TimeSpan firstNow, byte[] block) =>
        _scans.Run(run, first, count, firstNow.Ticks, block);

    public void AddSamples(int device, long first, int count, TimeSpan earliest, TimeSpan latest, byte[] block) =>
        _samples.Run(run, device, first, count, earliest.Ticks, latest.Ticks, block);

    public void AddEvent(RigEvent happened) =>
        _event.Run(run, happened.At.Ticks, happened.Scan, happened.Name, happened.Subject, happened.Text, EventData.Write(happened.Data));

    public void AddFigure(Figure figure) => database.Run(
        "insert into figure (run, name, value, unit, standard_uncertainty, low, high, repeat, method, note, budget) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
        run, figure.Name, NumberOrNull(figure.Value), figure.Unit, NumberOrNull(figure.StandardUncertainty),
        NumberOrNull(figure.Interval95?.Low), NumberOrNull(figure.Interval95?.High), figure.Repeat, figure.Method, figure.Note, BudgetData.Write(figure.Budget));

    public void SetEnd(RunEnd end) => database.Run(
        "update run set outcome = $2, ended_at = $3, note = $4 where id = $1",
        run, OutcomeNames.Name(end.Outcome), WallTime.Write(end.EndedAt), end.Note);

    /// <summary>A database has no number for "not a number"; such a figure is one that could not be had.</summary>
    private static double? NumberOrNull(double? value) => value is { } number && double.IsNaN(number) ? null : value;

    public void Dispose()
    {
        _scans.Dispose();
        _samples.Dispose();
        _event.Dispose();
    }
}

using RigControl.Logbook.Storage;
using RigControl.Logbook.Texts;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>Figures across runs.</summary>
public sealed partial class LogbookFile
{
    /// <summary>A figure of every run of an article that has it, the newest last; of several repeats their mean.</summary>
    public IReadOnlyList<FigurePoint> FigureOverTime(string figure, string article) => ReadAll(
        _database.Query("""
            select run.name, run.started_at, run.simulated, avg(figure.value), figure.unit from figure join run on run.id = figure.run
            where figure.name = $1 and run.article = $2 and figure.value is not null
            group by run.id, figure.unit order by run.started_at, run.id
            """, figure, article),
        row => new FigurePoint(row.Text(0), WallTime.Read(row.Text(1)), row.Number(2) != 0, row.Real(3)!.Value, row.Text(4)));

    /// <summary>Every figure of every run, the newest run last.</summary>
    public IReadOnlyList<FigureRow> AllFigures()
    {
        Dictionary<string, RunSummary> runs = Runs().ToDictionary(r => r.Run);
        return ReadAll(
            _database.Query("""
                select run.name, figure.name, value, unit, standard_uncertainty, low, high, repeat, method, figure.note, budget
                from figure join run on run.id = figure.run order by run.started_at, run.id, figure.id
                """),
            row => new FigureRow(runs[row.Text(0)], new Figure(
                row.Text(1), row.Real(2), row.Text(3), row.Real(4), Interval(row.Real(5), row.Real(6)), (int)row.Number(7), row.Text(8), row.TextOrNull(9)) { Budget = BudgetData.Read(row.TextOrNull(10)) }));
    }
}

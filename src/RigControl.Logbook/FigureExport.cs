using System.Globalization;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>The table of all figures as other programs read it.</summary>
public static class FigureExport
{
    private const string Head = "run,startedAt,procedure,article,rig,simulated,figure,repeat,value,unit,standardUncertainty,low95,high95,method,note,budget";

    /// <summary>Writes RFC 4180 with a head; an empty cell is what is not known.</summary>
    public static void WriteCsv(IReadOnlyList<FigureRow> rows, TextWriter writer)
    {
        writer.Write(Head + "\r\n");
        foreach (FigureRow row in rows)
        {
            string[] t = Texts(row);
            double?[] n = Numbers(row);
            string[] cells =
            [
                t[0], t[1], t[2], t[3], t[4], row.Run.Simulated ? "true" : "false", t[5], row.Figure.Repeat.ToString(CultureInfo.InvariantCulture),
                Number(n[0]), t[6], Number(n[1]), Number(n[2]), Number(n[3]), t[7], t[8], t[9],
            ];
            writer.Write(string.Join(',', cells.Select(TraceExport.Quoted)) + "\r\n");
        }
    }

    internal static string[] Texts(FigureRow row) =>
    [
        row.Run.Run, row.Run.StartedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture),
        row.Run.Procedure, row.Run.Article, row.Run.Rig, row.Figure.Name, row.Figure.Unit, row.Figure.Method, row.Figure.Note ?? "", Budget(row.Figure),
    ];

    internal static double?[] Numbers(FigureRow row) =>
        [row.Figure.Value, row.Figure.StandardUncertainty, row.Figure.Interval95?.Low, row.Figure.Interval95?.High];

    // One cell, so that the table keeps a row for a figure: names with their share of the variance, the largest first; a line of unknown
    // size is its name alone.
    private static string Budget(Figure figure) =>
        string.Join("; ", figure.Budget.Select(c => c is { Uncertainty: 0, Share: 0 } ? c.Name : string.Create(CultureInfo.InvariantCulture, $"{c.Name} {100 * c.Share:0.##} %")));

    private static string Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";
}

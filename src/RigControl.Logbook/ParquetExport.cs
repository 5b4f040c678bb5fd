using Parquet;
using Parquet.Schema;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>Traces and figures as Parquet files, https://parquet.apache.org/docs/file-format/. Columns are called as in the CSV files.</summary>
public static class ParquetExport
{
    // A hundred thousand rows of sixteen channels are 13 MiB while they are gathered.
    private const int RowsPerGroup = 100_000;

    /// <summary>Writes a run's trace: time in s from the start of the session and a column per channel, null where there is no sample.</summary>
    /// <param name="stream">Can be sought.</param>
    public static async Task WriteTraceAsync(LogbookFile logbook, string run, Stream stream)
    {
        TraceRows rows = new(logbook, run);
        DataField<double> time = new("time [s]");
        DataField<double?>[] fields = [.. rows.Channels.Select(c => new DataField<double?>(TraceExport.Title(c)))];
        await using ParquetWriter writer = await ParquetWriter.CreateAsync(new ParquetSchema([time, .. fields]), stream);
        List<double> times = [];
        List<double?>[] columns = [.. fields.Select(_ => new List<double?>())];
        foreach ((TimeSpan at, double[] cells) in rows.Read())
        {
            times.Add(at.TotalSeconds);
            for (int i = 0; i < cells.Length; i++)
                columns[i].Add(double.IsNaN(cells[i]) ? null : cells[i]);
            if (times.Count == RowsPerGroup)
                await WriteGroup(writer, time, fields, times, columns);
        }

        if (times.Count > 0)
            await WriteGroup(writer, time, fields, times, columns);
    }

    private static async Task WriteGroup(ParquetWriter writer, DataField time, DataField[] fields, List<double> times, List<double?>[] columns)
    {
        using ParquetRowGroupWriter group = writer.CreateRowGroup();
        await group.WriteAsync<double>(time, times.ToArray());
        for (int i = 0; i < fields.Length; i++)
        {
            await group.WriteAsync<double>(fields[i], columns[i].ToArray());
            columns[i].Clear();
        }

        times.Clear();
    }

    /// <summary>Writes figures, a row each.</summary>
    /// <param name="stream">Can be sought.</param>
    public static async Task WriteFiguresAsync(IReadOnlyList<FigureRow> rows, Stream stream)
    {
        string[] texts = ["run", "startedAt", "procedure", "article", "rig", "figure", "unit", "method", "note", "budget"];
        string[] numbers = ["value", "standardUncertainty", "low95", "high95"];
        DataField[] textFields = [.. texts.Select(t => new DataField<string>(t))];
        DataField<double?>[] numberFields = [.. numbers.Select(n => new DataField<double?>(n))];
        (DataField<int> repeat, DataField<bool> simulated) = (new("repeat"), new("simulated"));
        await using ParquetWriter writer = await ParquetWriter.CreateAsync(new ParquetSchema([.. textFields, .. numberFields, repeat, simulated]), stream);
        using ParquetRowGroupWriter group = writer.CreateRowGroup();
        for (int i = 0; i < texts.Length; i++)
            await group.WriteAsync(textFields[i], [.. rows.Select(r => FigureExport.Texts(r)[i])]);
        for (int i = 0; i < numbers.Length; i++)
            await group.WriteAsync<double>(numberFields[i], rows.Select(r => FigureExport.Numbers(r)[i]).ToArray());
        await group.WriteAsync<int>(repeat, rows.Select(r => r.Figure.Repeat).ToArray());
        await group.WriteAsync<bool>(simulated, rows.Select(r => r.Run.Simulated).ToArray());
    }
}

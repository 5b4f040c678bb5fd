using System.Globalization;
using CsvHelper;
using DuckDB.NET.Data;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>What is exported is read back by programs that are not ours: DuckDB for Parquet, CsvHelper for CSV.</summary>
public sealed class ParquetExportTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly LogbookFile _logbook;

    public ParquetExportTests()
    {
        _logbook = LogbookFile.Open(_folder.Logbook);
        RunMaker.Record(_logbook, "a", chunks: 30);
        RunMaker.Record(_logbook, "b", chunks: 1);
    }

    public void Dispose()
    {
        _logbook.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public async Task A_trace_reads_back_from_parquet_with_every_cell_as_in_the_logbook()
    {
        string file = _folder.File("a.parquet");
        await using (FileStream stream = File.Create(file))
            await ParquetExport.WriteTraceAsync(_logbook, "a", stream);
        List<double?[]> read = Query($"select * from '{file}' order by \"time [s]\"", out string[] names);
        TraceRows rows = new(_logbook, "a");
        Assert.Equal(["time [s]", .. rows.Channels.Select(c => $"{c.Name} [{c.Declaration.Unit}]")], names);
        int row = 0;
        foreach ((TimeSpan at, double[] cells) in rows.Read())
        {
            Assert.Equal(at.TotalSeconds, read[row][0]);
            Assert.Equal(cells.Select(c => double.IsNaN(c) ? (double?)null : c), read[row][1..]);
            row++;
        }

        Assert.Equal(row, read.Count);
        Assert.Equal(30 * RunMaker.ScansPerChunk, row);
    }

    [Fact]
    public async Task A_run_without_samples_gives_a_parquet_file_without_rows()
    {
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("c")))
            recorder.Finish(RunMaker.End(RunOutcome.Refused), []);
        string file = _folder.File("c.parquet");
        await using (FileStream stream = File.Create(file))
            await ParquetExport.WriteTraceAsync(_logbook, "c", stream);
        Assert.Empty(Query($"select * from '{file}'", out _));
    }

    [Fact]
    public async Task The_table_of_all_figures_reads_back_from_parquet()
    {
        string file = _folder.File("figures.parquet");
        await using (FileStream stream = File.Create(file))
            await ParquetExport.WriteFiguresAsync(_logbook.AllFigures(), stream);
        using DuckDBConnection connection = new("DataSource=:memory:");
        connection.Open();
        using DuckDBCommand command = connection.CreateCommand();
        command.CommandText = $"select run, figure, value, unit, low95, \"repeat\", simulated, note from '{file}' order by run, figure";
        using DuckDBDataReader rows = command.ExecuteReader();
        List<object[]> all = [];
        while (rows.Read())
            all.Add([.. Enumerable.Range(0, rows.FieldCount).Select(rows.GetValue)]);
        Assert.Equal(4, all.Count);
        Assert.Equal(["a", "drag-constant", DBNull.Value, "N.m", DBNull.Value, 0, false, "the article declares no inertia"], all[0]);
        Assert.Equal(["a", "peak-speed", 8912.4, "rpm", 8900.2, 1, false, ""], all[1]);
    }

    [Fact]
    public void A_trace_reads_back_from_csv_with_every_cell_as_in_the_logbook()
    {
        string file = _folder.File("a.csv");
        using (StreamWriter writer = new(file))
            TraceExport.WriteCsv(_logbook, "a", writer);
        using CsvReader reader = new(new StreamReader(file), CultureInfo.InvariantCulture);
        Assert.True(reader.Read() && reader.ReadHeader());
        TraceRows rows = new(_logbook, "a");
        Assert.Equal(["time [s]", .. rows.Channels.Select(c => $"{c.Name} [{c.Declaration.Unit}]")], reader.HeaderRecord!);
        foreach ((TimeSpan at, double[] cells) in rows.Read())
        {
            Assert.True(reader.Read());
            Assert.Equal(at.TotalSeconds, reader.GetField<double>(0));
            Assert.Equal(cells.Select(c => double.IsNaN(c) ? (double?)null : c), Enumerable.Range(1, cells.Length).Select(i => reader.GetField<double?>(i)));
        }

        Assert.False(reader.Read());
    }

    [Fact]
    public void The_table_of_all_figures_reads_back_from_csv()
    {
        using StringWriter text = new();
        FigureExport.WriteCsv(_logbook.AllFigures(), text);
        using CsvReader reader = new(new StringReader(text.ToString()), CultureInfo.InvariantCulture);
        List<IDictionary<string, object>> rows = [.. reader.GetRecords<dynamic>().Select(r => (IDictionary<string, object>)r)];
        Assert.Equal(4, rows.Count);
        Assert.Equal("scatter of the readings 90.4 %; step of the tachometer 9.6 %", (string)rows[0]["budget"]);
        Assert.Equal(("a", "peak-speed", "8912.4", "8900.2", "2031-05-04T16:30:00.123Z"), ((string)rows[0]["run"], (string)rows[0]["figure"], (string)rows[0]["value"], (string)rows[0]["low95"], (string)rows[0]["startedAt"]));
        Assert.Equal(("", "the article declares no inertia"), ((string)rows[1]["value"], (string)rows[1]["note"]));
    }

    [Fact]
    public void A_line_of_a_budget_whose_size_nobody_knows_is_its_name_alone()
    {
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("c")))
            recorder.Finish(RunMaker.End(RunOutcome.Completed), [new("mean-current", 20, "A", 0.1, (19.8, 20.2), 1, "mean", null) { Budget = [new("samples", 0.1, 1), new("battery.current: no calibration", 0, 0)] }]);
        using StringWriter text = new();
        FigureExport.WriteCsv(_logbook.AllFigures(), text);
        Assert.Contains("samples 100 %; battery.current: no calibration\r\n", text.ToString(), StringComparison.Ordinal);
    }

    private static List<double?[]> Query(string sql, out string[] names)
    {
        using DuckDBConnection connection = new("DataSource=:memory:");
        connection.Open();
        using DuckDBCommand command = connection.CreateCommand();
        command.CommandText = sql;
        using DuckDBDataReader rows = command.ExecuteReader();
        names = [.. Enumerable.Range(0, rows.FieldCount).Select(rows.GetName)];
        List<double?[]> all = [];
        while (rows.Read())
            all.Add([.. Enumerable.Range(0, rows.FieldCount).Select(i => rows.IsDBNull(i) ? (double?)null : rows.GetDouble(i))]);
        return all;
    }
}

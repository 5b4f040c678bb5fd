using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace RigControl.Documents.Traces;

/// <summary>
/// Reads a trace: RFC 4180, UTF-8, header <c>time [s],rotor.speed [rpm],…</c>, time rising strictly, empty cell for no sample.
/// A trace that lies is refused: nothing here throws on any text, the first thing wrong becomes a <see cref="Problem"/>.
/// </summary>
public static class TraceReader
{
    private static readonly CsvConfiguration Format = new(CultureInfo.InvariantCulture)
    {
        Delimiter = ",", HasHeaderRecord = false, IgnoreBlankLines = true, MaxFieldSize = TraceLimits.Cell, DetectDelimiter = false, TrimOptions = TrimOptions.Trim,
    };

    /// <summary>The trace, or what is wrong with it; line and column count from 1, the column being the cell's place in its row.</summary>
    /// <param name="file">Name for the problem.</param>
    public static Reading<RecordedTrace> Read(TextReader text, string file)
    {
        using CsvParser parser = new(new BoundedReader(text, TraceLimits.Characters), Format, leaveOpen: true);
        try
        {
            return new(Rows(parser), []);
        }
        catch (UnreadableTraceException e)
        {
            return Refused(file, Math.Max(1, parser.RawRow), e.Column, e.Message, e.Remedy);
        }
        catch (BadDataException)
        {
            return Refused(file, Math.Max(1, parser.RawRow), 1, "a quotation mark stands where none may", "write numbers without quotation marks");
        }
        catch (MaxFieldSizeException)
        {
            return Refused(file, Math.Max(1, parser.RawRow), 1, $"a cell is longer than {TraceLimits.Cell} characters", "separate cells by commas and rows by line ends");
        }
        catch (TooLongException)
        {
            return Refused(file, Math.Max(1, parser.RawRow), 1, $"the file is larger than {TraceLimits.Characters >> 20} MiB", "split it, or keep fewer samples");
        }
        catch (CsvHelperException e)
        {
            return Refused(file, Math.Max(1, parser.RawRow), 1, $"the row cannot be read: {e.GetType().Name}", "write comma-separated values as RFC 4180 tells");
        }
    }

    private static Reading<RecordedTrace> Refused(string file, int line, int column, string what, string remedy) =>
        new(null, [new Problem(file, line, column, what, remedy)]);

    private static RecordedTrace Rows(CsvParser parser)
    {
        if (!parser.Read())
            throw new UnreadableTraceException(1, "the file is empty", "begin it with a header such as `time [s],rotor.speed [rpm]`");
        TraceColumn[] columns = TraceHeader.Columns(parser.Record!);
        double last = double.NegativeInfinity;
        long cells = 0;
        while (parser.Read())
        {
            if (parser.Count != columns.Length + 1)
                throw new UnreadableTraceException(Math.Min(parser.Count, columns.Length + 1), $"the row has {parser.Count} cells, the header {columns.Length + 1}", "give every row a cell for every column; an empty one is no sample");
            if ((cells += parser.Count) > TraceLimits.Cells)
                throw new UnreadableTraceException(1, $"the trace has more than {TraceLimits.Cells:N0} cells", "split it, or keep fewer channels or samples");
            double time = Number(parser[0], 1, "the time");
            if (!(time > last))
                throw new UnreadableTraceException(1, Text($"the time {time} s does not rise above {last} s"), "let every row be later than the one before");
            last = time;
            for (int i = 0; i < columns.Length; i++)
            {
                if (parser[i + 1] is { Length: > 0 } cell)
                    columns[i].Add(time, Number(cell, i + 2, columns[i].Name));
            }
        }

        if (double.IsNegativeInfinity(last))
            throw new UnreadableTraceException(1, "the trace has no rows", "write at least two rows below the header");
        return new RecordedTrace([.. columns.Select(c => c.Build())]);
    }

    private static double Number(string cell, int column, string what) =>
        double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value)
            ? value
            : throw new UnreadableTraceException(column, $"{what} is not a number: {Shown(cell)}", column == 1 ? "write seconds with a decimal point" : "write a number with a decimal point, or leave the cell empty");

    private static string Shown(string cell) => cell.Length == 0 ? "the cell is empty" : $"`{(cell.Length > 30 ? cell[..30] + "…" : cell)}`";

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}

/// <summary>Ends the reading of a trace at a cell.</summary>
/// <param name="column">From 1.</param>
internal sealed class UnreadableTraceException(int column, string what, string remedy) : Exception(what)
{
    public int Column { get; } = column;

    public string Remedy { get; } = remedy;
}

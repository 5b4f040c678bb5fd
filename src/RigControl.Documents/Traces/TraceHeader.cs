using System.Text.RegularExpressions;
using RigControl.Documents.Text;
using RigControl.Documents.Values;

namespace RigControl.Documents.Traces;

/// <summary>The first row of a trace: <c>time [s]</c>, then <c>name [unit]</c> for every channel.</summary>
internal static partial class TraceHeader
{
    private const string Remedy = "begin the file with a header such as `time [s],rotor.speed [rpm]`";

    public static TraceColumn[] Columns(string[] cells)
    {
        if (cells[0] != "time [s]")
            throw new UnreadableTraceException(1, $"the first column is not `time [s]` but `{Short(cells[0])}`", Remedy);
        if (cells.Length > TraceLimits.Columns)
            throw new UnreadableTraceException(TraceLimits.Columns + 1, $"the trace has {cells.Length} columns, more than {TraceLimits.Columns}", "keep fewer channels");
        TraceColumn[] columns = [.. cells.Skip(1).Select((c, i) => Column(c, i + 2))];
        for (int i = 1; i < columns.Length; i++)
        {
            int same = Array.FindIndex(columns, 0, i, c => c.Name == columns[i].Name);
            if (same >= 0)
                throw new UnreadableTraceException(i + 2, $"columns {same + 2} and {i + 2} are both `{columns[i].Name}`", "give every channel one column and a name of its own");
        }

        return columns;
    }

    private static TraceColumn Column(string cell, int column)
    {
        Match match = NameAndUnit().Match(cell);
        if (!match.Success)
            throw new UnreadableTraceException(column, $"`{Short(cell)}` is not a channel's `name [unit]`", Remedy);
        (string name, string unit) = (match.Groups[1].Value, match.Groups[2].Value);
        if (name == "time")
            throw new UnreadableTraceException(column, "the time stands in a second column", "keep the time in the first column only");
        string canonical = Units.Canonical(unit)
            ?? throw new UnreadableTraceException(column, $"`{Short(unit)}` is not a known unit", $"write one of {string.Join(", ", Nearest.Of(unit, Units.Symbols) is { } near ? [near] : Units.Symbols)}");
        return new TraceColumn(name, unit, canonical);
    }

    private static string Short(string text) => text.Length > 30 ? text[..30] + "…" : text;

    [GeneratedRegex(@"^([^\[\]]*[^\[\] ]) *\[([^\[\]]+)\]$", RegexOptions.CultureInvariant)]
    private static partial Regex NameAndUnit();
}

/// <summary>A channel being read.</summary>
internal sealed class TraceColumn(string name, string unit, string canonical)
{
    // Every conversion is a straight line; asking for it once keeps a million samples quick.
    private readonly double _offset = Units.Convert(0, unit, canonical);
    private readonly double _factor = Units.ConvertDifference(1, unit, canonical);
    private readonly List<double> _times = [];
    private readonly List<double> _values = [];

    public string Name => name;

    public void Add(double time, double value)
    {
        _times.Add(time);
        _values.Add(_offset + _factor * value);
    }

    public RecordedChannel Build() => new(name, canonical, [.. _times], [.. _values]);
}

using System.Globalization;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>A run's samples as a trace that other programs read.</summary>
public static class TraceExport
{
    /// <summary>
    /// Writes a trace: RFC 4180, a first column <c>time [s]</c> that rises strictly, then one column per channel as
    /// <c>name [unit]</c>, one row per distinct time. An empty cell is no sample or a Bad one. Of two samples of a channel
    /// at the same time the one folded later counts. Numbers have the fewest digits that read back to the same double.
    /// </summary>
    /// <param name="origin">Time of the session's clock that the trace calls zero.</param>
    public static void WriteCsv(LogbookFile logbook, string run, TextWriter writer, TimeSpan origin = default)
    {
        Channel[] channels = [.. logbook.Header(run).Channels.OrderBy(channel => channel.Index)];
        writer.Write("time [s]");
        foreach (Channel channel in channels)
            writer.Write("," + Quoted($"{channel.Name} [{channel.Declaration.Unit}]"));
        writer.Write("\r\n");
        TraceRow row = new(channels, origin);
        foreach (Sample sample in logbook.SamplesByTime(run))
        {
            if (sample.At != row.At)
                row.WriteTo(writer);
            row.Set(sample);
        }
        row.WriteTo(writer);
    }

    private static string Quoted(string text) =>
        text.AsSpan().ContainsAny(",\"\r\n") ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;

    /// <summary>The row being gathered.</summary>
    private sealed class TraceRow(Channel[] channels, TimeSpan origin)
    {
        private readonly Dictionary<int, int> _columns = channels.Select((channel, column) => (channel.Index, column)).ToDictionary();
        private readonly double[] _cells = [.. channels.Select(_ => double.NaN)];

        /// <summary>Time of the samples in the row; null while it has none.</summary>
        public TimeSpan? At { get; private set; }

        public void Set(in Sample sample)
        {
            if (!_columns.TryGetValue(sample.Channel, out int column))
                throw new StorageException($"The run holds a sample of channel {sample.Channel}, of which its header says nothing: the record is damaged.");
            At = sample.At;
            _cells[column] = sample.Quality == Quality.Bad ? double.NaN : sample.Value;
        }

        /// <summary>Writes the row, if there is one, and empties it.</summary>
        public void WriteTo(TextWriter writer)
        {
            if (At is not { } at)
                return;
            writer.Write(((decimal)(at - origin).Ticks / TimeSpan.TicksPerSecond).ToString(CultureInfo.InvariantCulture));
            foreach (double cell in _cells)
            {
                writer.Write(',');
                if (double.IsFinite(cell))
                    writer.Write(cell.ToString("R", CultureInfo.InvariantCulture));
            }
            writer.Write("\r\n");
            Array.Fill(_cells, double.NaN);
            At = null;
        }
    }
}

using System.Globalization;
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
        TraceRows rows = new(logbook, run);
        writer.Write("time [s]");
        foreach (Channel channel in rows.Channels)
            writer.Write("," + Quoted(Title(channel)));
        writer.Write("\r\n");
        foreach ((TimeSpan at, double[] cells) in rows.Read())
        {
            writer.Write(((decimal)(at - origin).Ticks / TimeSpan.TicksPerSecond).ToString(CultureInfo.InvariantCulture));
            foreach (double cell in cells)
            {
                writer.Write(',');
                if (double.IsFinite(cell))
                    writer.Write(cell.ToString("R", CultureInfo.InvariantCulture));
            }

            writer.Write("\r\n");
        }
    }

    internal static string Title(Channel channel) => $"{channel.Name} [{channel.Declaration.Unit}]";

    internal static string Quoted(string text) =>
        text.AsSpan().ContainsAny(",\"\r\n") ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
}

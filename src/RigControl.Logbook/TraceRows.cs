using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>
/// A run's samples as rows: one per distinct time, a cell per channel. A cell that is not a number is no sample or a Bad one.
/// Of two samples of a channel at the same time the one folded later counts.
/// </summary>
public sealed class TraceRows(LogbookFile logbook, string run)
{
    /// <summary>The columns, in the order of the cells.</summary>
    public IReadOnlyList<Channel> Channels { get; } = [.. logbook.Header(run).Channels.OrderBy(channel => channel.Index)];

    /// <summary>Rows in the order of time. The cells are the same memory in every row.</summary>
    /// <exception cref="StorageException">The record is damaged.</exception>
    public IEnumerable<(TimeSpan At, double[] Cells)> Read()
    {
        Dictionary<int, int> columns = Channels.Select((channel, column) => (channel.Index, column)).ToDictionary();
        double[] cells = new double[Channels.Count];
        Array.Fill(cells, double.NaN);
        TimeSpan? at = null;
        foreach (Sample sample in logbook.SamplesByTime(run))
        {
            if (at is { } row && sample.At != row)
            {
                yield return (row, cells);
                Array.Fill(cells, double.NaN);
            }

            if (!columns.TryGetValue(sample.Channel, out int column))
                throw new StorageException($"The run holds a sample of channel {sample.Channel}, of which its header says nothing: the record is damaged.");
            at = sample.At;
            cells[column] = sample.Quality == Quality.Bad || !double.IsFinite(sample.Value) ? double.NaN : sample.Value;
        }

        if (at is { } last)
            yield return (last, cells);
    }
}

using RigControl.Logbook.Blocks;
using RigControl.Logbook.Storage;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>
/// All samples of a run in the order of their times; those of one time in the order of devices and of folding. Blocks come
/// by their earliest time, and what is earlier than any block still to come can be handed out, so that a long run is never
/// in memory as a whole. Those before <paramref name="since"/> are left out.
/// </summary>
internal sealed class SamplesByTime(Database database, long run, ReadingStep[] steps, TimeSpan since = default)
{
    private readonly SampleDecoder _decoder = new(steps);
    private readonly SampleBuffer _block = new();
    private readonly List<Waiting> _waiting = [];

    /// <summary>A sample that may still be preceded by one of a block to come.</summary>
    private readonly record struct Waiting(Sample Sample, int Device, long Place) : IComparable<Waiting>
    {
        public int CompareTo(Waiting other) => (Sample.At, Device, Place).CompareTo((other.Sample.At, other.Device, other.Place));
    }

    public IEnumerable<Sample> Read()
    {
        using Rows blocks = database.Query("select first_at, id, device, first from sample_block where run = $1 and last_at >= $2 order by first_at, id", run, since.Ticks);
        while (blocks.Next())
        {
            int ready = CountBefore(TimeSpan.FromTicks(blocks.Number(0)));
            for (int i = 0; i < ready; i++)
                yield return _waiting[i].Sample;
            _waiting.RemoveRange(0, ready);
            Add(blocks.Number(1), (int)blocks.Number(2), blocks.Number(3));
        }
        foreach (Waiting last in _waiting)
            yield return last.Sample;
    }

    private int CountBefore(TimeSpan time)
    {
        int count = 0;
        while (count < _waiting.Count && _waiting[count].Sample.At < time)
            count++;
        return count;
    }

    private void Add(long id, int device, long first)
    {
        using Rows data = database.Query("select data from sample_block where id = $1", id);
        data.Next();
        SampleSequence.Decode(_decoder, data, _block, database.Path);
        for (int i = 0; i < _block.Count; i++)
        {
            if (_block.Samples[i].At >= since)
                _waiting.Add(new Waiting(_block.Samples[i], device, first + i));
        }

        _waiting.Sort();
    }
}

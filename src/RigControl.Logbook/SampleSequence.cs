using RigControl.Logbook.Blocks;
using RigControl.Logbook.Storage;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>The samples of one device of a run, block after block.</summary>
internal static class SampleSequence
{
    public static IEnumerable<Sample> Of(Database database, long run, int device, ReadingStep[] steps)
    {
        SampleDecoder decoder = new(steps);
        SampleBuffer block = new();
        using Rows blocks = database.Query("select data from sample_block where run = $1 and device = $2 order by first", run, device);
        while (blocks.Next())
        {
            Decode(decoder, blocks, block, database.Path);
            for (int i = 0; i < block.Count; i++)
                yield return block.Samples[i];
        }
    }

    public static void Decode(SampleDecoder decoder, Rows blocks, SampleBuffer into, string path)
    {
        try
        {
            decoder.Decode(blocks.Bytes(0), into);
        }
        catch (Exception fault) when (fault is InvalidDataException or InvalidCastException)
        {
            throw StorageFault.Damaged(path, fault);
        }
    }
}

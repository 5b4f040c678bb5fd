using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook.Blocks;

/// <summary>Unpacks what <see cref="SampleEncoder"/> packed. A damaged block throws <see cref="InvalidDataException"/>.</summary>
/// <param name="steps">The same as those given to the encoder.</param>
internal sealed class SampleDecoder(ReadingStep[] steps)
{
    // A channel's number has sixteen bits.
    private const int MostChannels = ushort.MaxValue + 1;

    private ChannelTrack[] _tracks = [];
    private BlockReader _shape;
    private BlockReader _values;
    private long _time;

    /// <summary>Replaces the content of <paramref name="samples"/> by that of a block.</summary>
    public void Decode(byte[] block, SampleBuffer samples)
    {
        samples.Clear();
        int count = Open(block, out int limit);
        ChannelTrack.Reset(ref _tracks, limit, steps);
        ChannelTrack start = new(channel: -1, step: default);
        ref ChannelTrack before = ref start;
        _time = 0;
        while (true)
        {
            ulong token = _shape.Unsigned();
            before = ref ReadRun(token >> 3, ref before, limit, count, samples);
            SampleSurprise surprise = (SampleSurprise)token & SampleSurprise.All;
            if (surprise == SampleSurprise.None)
                break;
            before = ref ReadSurprise(surprise, ref before, limit, samples);
        }
        if (samples.Count != count)
            throw new InvalidDataException($"a block holds {samples.Count} samples where {count} are due");
        _shape.End();
        _values.End();
    }

    /// <returns>Number of samples; no more than there are bytes, since each takes at least one.</returns>
    private int Open(byte[] block, out int limit)
    {
        BlockReader head = BlockSeal.Open(block);
        byte version = head.Byte();
        if (version != SampleEncoder.Version)
            throw new InvalidDataException($"a block of samples has version {version}, this program reads {SampleEncoder.Version}");
        int count = head.UpTo(block.Length);
        limit = head.UpTo(MostChannels);
        int shape = head.UpTo(block.Length);
        if (shape > head.Left)
            throw new InvalidDataException("a block ends too early");
        _shape = new BlockReader(block, head.Next, head.Next + shape);
        _values = new BlockReader(block, head.Next + shape, head.Next + head.Left);
        return count;
    }

    private ref ChannelTrack ReadRun(ulong length, ref ChannelTrack before, int limit, int count, SampleBuffer samples)
    {
        if (length > (ulong)(count - samples.Count))
            throw new InvalidDataException($"a block holds more samples than the {count} that are due");
        for (; length > 0; length--)
        {
            int channel = Within(limit, before.Follower);
            _time += before.Gap;
            before = ref Add(channel, samples);
        }
        return ref before;
    }

    private ref ChannelTrack ReadSurprise(SampleSurprise surprise, ref ChannelTrack before, int limit, SampleBuffer samples)
    {
        bool other = (surprise & SampleSurprise.Channel) != 0;
        int channel = Within(limit, other ? _shape.UpTo(MostChannels) : before.Follower);
        long gap = before.ExpectedGap(channel) + ((surprise & SampleSurprise.Time) != 0 ? _shape.Signed() : 0);
        if ((surprise & SampleSurprise.Quality) != 0)
            _tracks[channel].Quality = (Quality)_shape.UpTo(ushort.MaxValue);
        before.Learn(channel, gap);
        _time += gap;
        return ref Add(channel, samples);
    }

    private static int Within(int limit, int channel) =>
        channel < limit ? channel : throw new InvalidDataException($"a block holds channel {channel} where {limit - 1} is the last");

    private ref ChannelTrack Add(int channel, SampleBuffer samples)
    {
        ref ChannelTrack track = ref _tracks[channel];
        double value = ReadValue(ref track);
        samples.Add(new Sample((ushort)channel, track.Quality, TimeSpan.FromTicks(_time), value));
        return ref track;
    }

    private double ReadValue(ref ChannelTrack track)
    {
        if (track.Step.IsDefined)
        {
            ulong code = _values.Unsigned();
            if (code != 0)
                return ReadSteps(ref track, code - 1);
        }
        track.Bits ^= _values.Bits();
        return BitConverter.UInt64BitsToDouble(track.Bits);
    }

    private static double ReadSteps(ref ChannelTrack track, ulong rise)
    {
        track.Steps += (long)(rise >> 1) ^ -(long)(rise & 1);
        return track.Step.ValueOf(track.Steps);
    }
}

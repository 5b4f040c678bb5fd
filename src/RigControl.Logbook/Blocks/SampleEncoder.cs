using RigControl.Model.Signals;

namespace RigControl.Logbook.Blocks;

/// <summary>
/// Packs the samples of one device, in their order, into a block that needs no other block to be read.
/// <para>
/// Shape and values stand apart. The shape says which channel came when and with which quality: after each channel the one
/// that followed it last time is expected, after the same time and with its own latest quality, and only the lengths of
/// the runs in which that held, and the surprises between them, are written. A value is the difference to the channel's
/// latest one in steps of its resolution, plus one; zero says that the value is not bit for bit a whole number of steps
/// (not a number, infinite, minus zero, unrounded), and then its 64 bits follow. So every double comes back exactly.
/// </para>
/// <para>Layout: version byte, count, number of channel places, length of the shape, shape, values, seal.</para>
/// </summary>
/// <param name="steps">Per channel of the rig, as declared; what is read back must be given the same.</param>
internal sealed class SampleEncoder(ReadingStep[] steps)
{
    public const byte Version = 2;

    /// <summary>Most steps that a double counts one by one.</summary>
    private const double MostSteps = 1L << 53;

    private readonly BlockWriter _block = new();
    private readonly BlockWriter _shape = new();
    private readonly BlockWriter _values = new();
    private ChannelTrack[] _tracks = [];

    /// <returns>The block; it is overwritten by the next call.</returns>
    public ReadOnlySpan<byte> Encode(ReadOnlySpan<Sample> samples)
    {
        int limit = ChannelLimit(samples);
        ChannelTrack.Reset(ref _tracks, limit, steps);
        _shape.Clear();
        _values.Clear();
        EncodeAll(samples);
        return Assemble(samples.Length, limit);
    }

    private static int ChannelLimit(ReadOnlySpan<Sample> samples)
    {
        int highest = -1;
        foreach (ref readonly Sample sample in samples)
            highest = Math.Max(highest, sample.Channel);
        return highest + 1;
    }

    private void EncodeAll(ReadOnlySpan<Sample> samples)
    {
        ChannelTrack start = new(channel: -1, step: default);
        ref ChannelTrack before = ref start;
        long time = 0;
        uint run = 0;
        foreach (ref readonly Sample sample in samples)
        {
            ref ChannelTrack track = ref _tracks[sample.Channel];
            long gap = sample.At.Ticks - time;
            if (sample.Channel == before.Follower && gap == before.Gap && sample.Quality == track.Quality)
            {
                run++;
            }
            else
            {
                WriteSurprise(run, sample, gap, ref before, ref track);
                run = 0;
            }
            WriteValue(ref track, sample.Value);
            time = sample.At.Ticks;
            before = ref track;
        }
        _shape.Unsigned((ulong)run << 3);
    }

    private void WriteSurprise(uint run, in Sample sample, long gap, ref ChannelTrack before, ref ChannelTrack track)
    {
        SampleSurprise surprise = SampleSurprise.None;
        long late = gap - before.ExpectedGap(sample.Channel);
        if (sample.Channel != before.Follower) surprise |= SampleSurprise.Channel;
        if (late != 0) surprise |= SampleSurprise.Time;
        if (sample.Quality != track.Quality) surprise |= SampleSurprise.Quality;
        _shape.Unsigned((ulong)run << 3 | (uint)surprise);
        if ((surprise & SampleSurprise.Channel) != 0) _shape.Unsigned(sample.Channel);
        if ((surprise & SampleSurprise.Time) != 0) _shape.Signed(late);
        if ((surprise & SampleSurprise.Quality) != 0) _shape.Unsigned((ushort)sample.Quality);
        before.Learn(sample.Channel, gap);
        track.Quality = sample.Quality;
    }

    private void WriteValue(ref ChannelTrack track, double value)
    {
        ulong bits = BitConverter.DoubleToUInt64Bits(value);
        if (track.Step.IsDefined)
        {
            double count = track.Step.CountOf(value);
            if (Math.Abs(count) <= MostSteps && BitConverter.DoubleToUInt64Bits(track.Step.ValueOf((long)count)) == bits)
            {
                WriteSteps(ref track, (long)count);
                return;
            }
            _values.Byte(0);
        }
        _values.Bits(bits ^ track.Bits);
        track.Bits = bits;
    }

    private void WriteSteps(ref ChannelTrack track, long steps)
    {
        long rise = steps - track.Steps;
        _values.Unsigned(((ulong)(rise << 1) ^ (ulong)(rise >> 63)) + 1);
        track.Steps = steps;
    }

    private ReadOnlySpan<byte> Assemble(int count, int limit)
    {
        _block.Clear();
        _block.Byte(Version);
        _block.Unsigned((uint)count);
        _block.Unsigned((uint)limit);
        _block.Unsigned((uint)_shape.Count);
        _block.Append(_shape.Bytes);
        _block.Append(_values.Bytes);
        _block.Seal();
        return _block.Bytes;
    }
}

using RigControl.Model.Signals;

namespace RigControl.Logbook.Blocks;

/// <summary>
/// What a block remembers of one channel while it is written or read: what followed it last time, and its latest value.
/// Both sides start alike and learn alike, so that only surprises need to be written.
/// </summary>
internal struct ChannelTrack
{
    /// <summary>The channel expected to follow.</summary>
    public int Follower;

    /// <summary>Time expected from this channel's sample to the follower's, ticks of 100 ns.</summary>
    public long Gap;

    /// <summary>The quality expected of this channel.</summary>
    public Quality Quality;

    /// <summary>Latest value that was a whole number of steps, in steps.</summary>
    public long Steps;

    /// <summary>Latest value that was not, as bits.</summary>
    public ulong Bits;

    /// <summary>What its values are whole numbers of.</summary>
    public ReadingStep Step;

    /// <summary>At first the next channel is expected, at the same time: devices write their channels in order.</summary>
    public ChannelTrack(int channel, ReadingStep step)
    {
        Follower = channel + 1;
        Quality = Quality.Good;
        Step = step;
    }

    /// <summary>Notes what came after this channel.</summary>
    public void Learn(int follower, long gap)
    {
        Follower = follower;
        Gap = gap;
    }

    /// <summary>Time at which a sample of <paramref name="channel"/> is expected; an unexpected channel, at once.</summary>
    public readonly long ExpectedGap(int channel) => channel == Follower ? Gap : 0;

    /// <summary>Fresh tracks for the channels below <paramref name="limit"/>; those without a known step have none.</summary>
    public static void Reset(ref ChannelTrack[] tracks, int limit, ReadingStep[] steps)
    {
        if (tracks.Length < limit)
            tracks = new ChannelTrack[limit];
        for (int channel = 0; channel < limit; channel++)
            tracks[channel] = new ChannelTrack(channel, channel < steps.Length ? steps[channel] : default);
    }
}

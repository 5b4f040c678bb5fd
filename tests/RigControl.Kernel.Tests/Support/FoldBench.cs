namespace RigControl.Kernel.Tests.Support;

/// <summary>The fold of one or more channels. Values are true from -1000 to 20000, readings live for 50 ms.</summary>
internal sealed class FoldBench(int channels = 1, int frozenAfter = 0)
{
    private readonly Channel[] _channels = [.. Enumerable.Range(0, channels).Select(i => RigBuilder.Channel(i, $"channel-{i}", frozenAfter))];
    private FoldState _state;
    private InputImage _image;

    public IReadOnlyList<Channel> Channels => _channels;

    public FoldBench Add(double milliseconds, double value, Quality quality = Quality.Good, int channel = 0)
    {
        Fold.Add(_channels, ref _state, new Sample((ushort)channel, quality, TimeSpan.FromMilliseconds(milliseconds), value));
        return this;
    }

    public FoldBench Add(Sample sample)
    {
        Fold.Add(_channels, ref _state, sample);
        return this;
    }

    public ImageEntry Close(double milliseconds, int channel = 0)
    {
        Fold.Close(_channels, ref _state, TimeSpan.FromMilliseconds(milliseconds), ref _image);
        return _image[channel];
    }

    public ImageEntry Entry(int channel) => _image[channel];
}

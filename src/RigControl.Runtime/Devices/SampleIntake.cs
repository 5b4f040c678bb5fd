using RigControl.Contracts;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Devices;

/// <summary>
/// Takes a device's samples, gives them their place in the rig and rounds them to the channel's resolution: once,
/// here, for decisions and record alike.
/// </summary>
internal sealed class SampleIntake(IReadOnlyList<Channel> channels) : ISampleWriter
{
    private readonly ReadingStep[] _steps = [.. channels.Select(c => new ReadingStep(c.Declaration.Resolution))];
    private int _thisRead;

    public SampleBuffer Samples { get; } = new();

    public void Begin() => _thisRead = 0;

    public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good)
    {
        if ((uint)channel >= (uint)channels.Count)
            throw new DeviceException($"it wrote to its channel {channel}, but declared only {channels.Count}");
        if (++_thisRead > DeviceLimits.SamplesPerRead)
            throw new DeviceException($"it wrote more than {DeviceLimits.SamplesPerRead} samples in one read");
        Channel target = channels[channel];
        Samples.Add(new Sample((ushort)target.Index, quality, at, _steps[channel].Rounded(value)));
    }
}

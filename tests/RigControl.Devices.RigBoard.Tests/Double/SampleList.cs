using RigControl.Contracts;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Tests.Double;

/// <summary>Keeps every sample by the name of its channel.</summary>
public sealed class SampleList(IReadOnlyList<ChannelDeclaration> channels) : ISampleWriter
{
    public List<(string Channel, TimeSpan At, double Value, Quality Quality)> All { get; } = [];

    public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good) =>
        All.Add((channels[channel].Name, at, value, quality));

    public (string Channel, TimeSpan At, double Value, Quality Quality) Last(string channel) => All.Last(s => s.Channel == channel);

    public double[] Values(string channel) => [.. All.Where(s => s.Channel == channel).Select(s => s.Value)];
}

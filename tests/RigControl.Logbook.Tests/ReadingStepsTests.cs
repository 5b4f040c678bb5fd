using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>How finely each channel is kept.</summary>
public class ReadingStepsTests
{
    [Fact]
    public void Each_channel_has_its_own() => Assert.Equal([0.1, 0.01, 0], Sizes(RunMaker.Header("a1")));

    [Fact]
    public void A_place_without_a_channel_has_none()
    {
        RunHeader header = RunMaker.Header("a1");
        Assert.Equal([0, 0, 0, 0, 0.01], Sizes(header with { Channels = [header.Channels[1] with { Index = 4 }] }));
    }

    [Fact]
    public void A_rig_without_channels_has_none() => Assert.Empty(Sizes(RunMaker.Header("a1") with { Channels = [] }));

    private static IEnumerable<double> Sizes(RunHeader header) => ReadingSteps.Of(header).Select(s => s.Size);
}

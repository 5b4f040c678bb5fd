using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class ScanLateTests
{
    private const string Lateness = ChannelNames.ScanLateness;

    private readonly Bench _bench = new(new ScanLatePlugin(), new ScanLateOptions { Limit = 0.002 });

    [Fact]
    public void Scans_in_time_let_the_rig_go_on()
    {
        Assert.Equal(0.75, _bench.Set(Lateness, 0.5).Scan().Proceeds().Margin);
        Assert.Equal("scan lateness 0.5 ms is within the limit of 2 ms", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-064")]
    [Fact]
    public void A_scan_later_than_allowed_stops()
    {
        _bench.Set(Lateness, 2.5).Scan().Objects();
        Assert.Equal("scan lateness 2.5 ms is above the limit of 2 ms", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-064")]
    [Fact]
    public void With_a_time_allowed_only_lateness_that_lasts_stops()
    {
        Bench lenient = new(new ScanLatePlugin(), new ScanLateOptions { Limit = 0.002, For = 0.3 });
        lenient.ScanAfter(0, Lateness, 9).Proceeds();
        lenient.ScanAfter(0.29, Lateness, 9).Proceeds();
        lenient.ScanAfter(0.01, Lateness, 9).Objects();
    }
}

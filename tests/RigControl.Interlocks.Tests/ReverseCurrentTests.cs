using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class ReverseCurrentTests
{
    private const string Current = ChannelNames.BatteryCurrent;

    private readonly Bench _bench = new(new ReverseCurrentPlugin(), new ReverseCurrentOptions { Limit = 5, For = 0.1 });

    [Fact]
    public void A_current_out_of_the_pack_may_be_any()
    {
        Assert.Equal(1, _bench.Set(Current, 190).Scan().Proceeds().Margin);
        Assert.Equal("battery current, which does not flow backwards, is within the limit of 5 A", _bench.Sentence());
    }

    [Fact]
    public void A_little_current_back_may_last()
    {
        _bench.ScanAfter(0, Current, -5).Proceeds();
        Assert.Equal(0, _bench.ScanAfter(100, Current, -5).Proceeds().Margin);
        Assert.Equal("battery 5 A backwards is within the limit of 5 A", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-059")]
    [Fact]
    public void A_brake_that_drives_current_into_the_pack_stops()
    {
        _bench.ScanAfter(0, Current, -12).Proceeds();
        Demand demand = _bench.ScanAfter(0.1, Current, -12).Objects();
        Assert.Equal((12.0, 5.0), (demand.Value, demand.Limit));
        Assert.Equal("battery 12 A backwards has been above the limit of 5 A for 0.1 s", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-059")]
    [Fact]
    public void Without_an_allowed_time_a_kick_between_two_scans_stops()
    {
        Bench strict = new(new ReverseCurrentPlugin(), new ReverseCurrentOptions { Limit = 5 });
        strict.Spread(Current, last: 20, minimum: -5.1, maximum: 30).Scan().Objects();
    }
}

using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class RecorderBehindTests
{
    private const string Backlog = ChannelNames.RecorderBacklog;

    private readonly Bench _bench = new(new RecorderBehindPlugin(), new RecorderBehindOptions { Limit = 25, For = 0.2 }, DemandAction.StopOutput);

    [Fact]
    public void A_recorder_that_keeps_up_lets_the_rig_go_on()
    {
        Assert.Equal(0.8, _bench.Set(Backlog, 5).Scan().Proceeds().Margin);
        Assert.Equal("recorder backlog 5 % is within the limit of 25 %", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-063")]
    [Fact]
    public void A_recorder_that_stays_behind_stops_the_output()
    {
        _bench.ScanAfter(0, Backlog, 30).Proceeds();
        Demand demand = _bench.ScanAfter(0.2, Backlog, 30).Objects(DemandAction.StopOutput);
        Assert.Equal("recorder backlog 30 % has been above the limit of 25 % for 0.2 s", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void A_slow_commit_that_is_caught_up_with_is_allowed()
    {
        _bench.ScanAfter(0, Backlog, 30).Proceeds();
        _bench.ScanAfter(0.15, Backlog, 20).Proceeds();
        _bench.ScanAfter(0.1, Backlog, 30).Proceeds();
    }
}

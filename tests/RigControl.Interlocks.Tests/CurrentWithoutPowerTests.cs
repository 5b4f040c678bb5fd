using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class CurrentWithoutPowerTests
{
    private const string Power = ChannelNames.OutputPower;
    private const string Current = ChannelNames.BatteryCurrent;

    private readonly Bench _bench = new(new CurrentWithoutPowerPlugin(), new CurrentWithoutPowerOptions { Limit = 0.5, For = 0.1 });

    [Fact]
    public void With_the_power_on_any_current_may_flow()
    {
        Assert.Equal(1, _bench.Set(Current, 80).Scan().Proceeds().Margin);
        Assert.Equal("no current flows that the power does not explain", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-055")]
    [Fact]
    public void A_current_that_goes_on_with_the_power_off_stops()
    {
        _bench.Set(Power, 0).ScanAfter(0, Current, 3).Proceeds();
        _bench.ScanAfter(0.09, Current, 3).Proceeds();
        Demand demand = _bench.ScanAfter(0.01, Current, 3).Objects();
        Assert.Equal((3.0, 0.5), (demand.Value, demand.Limit));
        Assert.Equal(
            "battery 3 A flows although output.power reads 0, where 0.5 A is the most; look at contactor and sensor", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-055")]
    [Fact]
    public void Without_an_allowed_time_it_stops_at_once_whichever_way_it_flows()
    {
        Bench strict = new(new CurrentWithoutPowerPlugin(), new CurrentWithoutPowerOptions { Limit = 0.5 });
        strict.Set(Power, 0).Set(Current, -0.51).Scan().Objects();
    }

    [Fact]
    public void The_sensor_s_own_offset_is_no_current() => Assert.Equal(0, _bench.Set(Power, 0).Set(Current, 0.5).Scan().Proceeds().Margin);

    [Fact]
    public void Power_that_was_on_for_a_moment_since_the_last_scan_explains_the_current()
    {
        Bench strict = new(new CurrentWithoutPowerPlugin(), new CurrentWithoutPowerOptions { Limit = 0.5 });
        strict.Spread(Power, last: 0, minimum: 0, maximum: 1).Set(Current, 3).Scan().Proceeds();
    }

    [Fact]
    public void The_time_begins_again_with_the_power()
    {
        _bench.Set(Power, 0).ScanAfter(0, Current, 3).Proceeds();
        _bench.Set(Power, 1).ScanAfter(0.09, Current, 3).Proceeds();
        _bench.Set(Power, 0).ScanAfter(0.01, Current, 3).Proceeds();
        _bench.ScanAfter(0.09, Current, 3).Proceeds();
        _bench.ScanAfter(0.01, Current, 3).Objects();
    }
}

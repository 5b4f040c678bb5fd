using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class PowerFollowsTests
{
    private const string Power = ChannelNames.OutputPower;

    // The bench's article keeps the power for one second after a stop that did not cut it.
    private readonly Bench _bench = new(new PowerFollowsPlugin(), new PowerFollowsOptions { Within = 0.1 });

    [Theory]
    [InlineData(RigState.Arming, 1)]
    [InlineData(RigState.SpinUp, 1)]
    [InlineData(RigState.Hold, 1)]
    [InlineData(RigState.CoastDown, 1)]
    [InlineData(RigState.Idle, 0)]
    [InlineData(RigState.SafeStop, 0)]
    public void Power_as_the_state_demands_lets_the_rig_go_on(RigState state, double power)
    {
        _bench.State = state;
        for (int scan = 0; scan < 10; scan++)
            Assert.Equal(1, _bench.ScanAfter(1, Power, power).Proceeds().Margin);
    }

    [Trait("Requirement", "SAF-061")]
    [Fact]
    public void A_contactor_that_does_not_close_in_time_stops()
    {
        _bench.ScanAfter(0, Power, 0).Proceeds();
        _bench.ScanAfter(0.099, Power, 0).Proceeds();
        Assert.Equal("the power is on as demanded, or has just been asked for", _bench.Sentence());
        Assert.Equal(
            "the power did not come on within 0.1 s: output.power reads 0, not 1; look at contactor and its coil circuit",
            _bench.Interlock.Explain(_bench.ScanAfter(0.001, Power, 0).Objects()));
    }

    [Trait("Requirement", "SAF-061")]
    [Fact]
    public void A_welded_contactor_objects_once_the_stopping_time_is_over()
    {
        _bench.Scan().Proceeds();
        _bench.State = RigState.SafeStop;
        _bench.ScanAfter(0.005, Power, 1).Proceeds();
        _bench.ScanAfter(1.099, Power, 1).Proceeds();
        Assert.Equal(
            "the power did not go off within 0.1 s: output.power reads 1, not 0; disconnect the pack and look at the contactor",
            _bench.Interlock.Explain(_bench.ScanAfter(0.001, Power, 1).Objects()));
    }

    [Fact]
    public void In_idle_there_is_no_stopping_time()
    {
        _bench.State = RigState.Idle;
        _bench.ScanAfter(0, Power, 1).Proceeds();
        _bench.ScanAfter(0.1, Power, 1).Objects();
    }

    [Fact]
    public void A_new_demand_has_its_whole_time()
    {
        _bench.ScanAfter(0, Power, 0).Proceeds();
        _bench.ScanAfter(0.09, Power, 0).Proceeds();
        _bench.State = RigState.Idle;
        _bench.ScanAfter(0.005, Power, 1).Proceeds();
        _bench.ScanAfter(0.09, Power, 1).Proceeds();
        _bench.ScanAfter(0.01, Power, 1).Objects();
    }

    [Fact]
    public void A_contact_that_chatters_does_not_follow()
    {
        _bench.Spread(Power, last: 1, minimum: 0, maximum: 1).Scan().Proceeds();
        _bench.Wait(0.1).Spread(Power, last: 1, minimum: 0, maximum: 1).Scan().Objects();
    }

    [Fact]
    public void In_a_state_that_nobody_knows_power_is_not_demanded()
    {
        _bench.State = (RigState)77;
        _bench.ScanAfter(0, Power, 1).Proceeds();
        _bench.ScanAfter(0.1, Power, 1).Objects();
    }
}

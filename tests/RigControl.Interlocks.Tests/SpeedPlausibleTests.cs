using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class SpeedPlausibleTests
{
    private const string Speed = ChannelNames.RotorSpeed;
    private const string Voltage = ChannelNames.BatteryVoltage;

    private readonly Bench _bench = new(new SpeedPlausiblePlugin(), new SpeedPlausibleOptions { SpeedConstant = 1000 });

    [Fact]
    public void A_speed_below_speed_constant_times_voltage_may_go_on()
    {
        Demand demand = _bench.Set(Speed, 9000).Scan().Proceeds();
        Assert.Equal((9000.0, 12_000.0, 0.25), (demand.Value, demand.Limit, demand.Margin));
        Assert.Equal("rotor 9000 rpm is within the 12000 rpm that its voltage can have brought about", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-053")]
    [Fact]
    public void A_speed_that_the_voltage_cannot_have_brought_about_stops()
    {
        Demand demand = _bench.Set(Speed, 12_001).Scan().Objects();
        Assert.Equal((SpeedPlausible.Impossible, 12_001.0, 12_000.0), (demand.Reason, demand.Value, demand.Limit));
        Assert.Equal(
            "rotor 12001 rpm cannot be: the voltage can have brought about 12000 rpm at most; look at tachometer and marks", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-053")]
    [Fact]
    public void A_spike_of_the_speed_between_two_scans_is_seen() =>
        _bench.Spread(Speed, last: 6000, minimum: 6000, maximum: 12_500).Scan().Objects();

    [Trait("Requirement", "SAF-053")]
    [Fact]
    public void A_speed_that_cannot_be_is_not_believed_the_second_time_either()
    {
        _bench.Set(Speed, 12_001).Scan().Objects();
        _bench.Scan().Objects();
        _bench.Set(Speed, 12_000).Scan().Proceeds();
    }

    [Fact]
    public void A_rotor_that_runs_down_after_the_power_went_may_be_faster_as_long_as_it_gets_slower()
    {
        _bench.Set(Speed, 9000).Scan().Proceeds();
        _bench.Set(Voltage, 0);
        for (double speed = 8990; speed > 0; speed -= 10)
            Assert.Equal(0, _bench.ScanAfter(0.005, Speed, speed).Proceeds().Margin);
    }

    [Fact]
    public void A_rotor_that_gets_faster_again_without_voltage_stops()
    {
        _bench.Set(Speed, 9000).Scan().Proceeds();
        _bench.Set(Voltage, 0);
        _bench.ScanAfter(0.005, Speed, 8000).Proceeds();
        Assert.Equal(8000, _bench.ScanAfter(0.005, Speed, 8001).Objects().Limit);
    }

    [Fact]
    public void The_allowance_is_for_the_errors_of_sensors_and_constant()
    {
        Bench lenient = new(new SpeedPlausiblePlugin(), new SpeedPlausibleOptions { SpeedConstant = 1000, Allowance = 5 });
        lenient.Set(Speed, 12_600).Scan().Proceeds();
        lenient.Set(Speed, 12_601).Scan().Objects();
    }

    [Fact]
    public void It_does_not_matter_which_way_the_rotor_turns() => _bench.Set(Speed, -12_001).Scan().Objects();
}

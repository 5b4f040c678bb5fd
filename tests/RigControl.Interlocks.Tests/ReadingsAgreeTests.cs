using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class ReadingsAgreeTests
{
    private const string One = ChannelNames.RotorSpeed;

    private readonly Bench _bench = new(
        new ReadingsAgreePlugin(), new ReadingsAgreeOptions { First = One, Second = Bench.OtherSpeed, Limit = 100, For = 0.1 });

    [Fact]
    public void Two_readings_that_agree_let_the_rig_go_on()
    {
        Assert.Equal(0.75, _bench.Set(One, 5000).Set(Bench.OtherSpeed, 4975).Scan().Proceeds().Margin);
        Assert.Equal("rotor.speed and motor.speed differ by 25 rpm; 100 rpm is allowed", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-056")]
    [Theory]
    [InlineData(5000, 4800)]
    [InlineData(4800, 5000)]
    public void Two_readings_that_go_on_differing_stop_whichever_is_the_higher(double one, double other)
    {
        _bench.Set(Bench.OtherSpeed, other).ScanAfter(0, One, one).Proceeds();
        Assert.Equal("rotor.speed and motor.speed differ by 200 rpm, more than 100 rpm, which is allowed for less than 0.1 s", _bench.Sentence());
        Demand demand = _bench.Set(Bench.OtherSpeed, other).ScanAfter(0.1, One, one).Objects();
        Assert.Equal("rotor.speed and motor.speed differ by 200 rpm and have differed by more than 100 rpm for 0.1 s", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-056")]
    [Fact]
    public void A_difference_between_two_scans_is_seen()
    {
        Bench strict = new(new ReadingsAgreePlugin(), new ReadingsAgreeOptions { First = One, Second = Bench.OtherSpeed, Limit = 100 });
        Demand demand = strict.Spread(One, last: 5000, minimum: 5000, maximum: 5101).Set(Bench.OtherSpeed, 5000).Scan().Objects();
        Assert.Equal("rotor.speed and motor.speed differ by 101 rpm, and 100 rpm is allowed", strict.Interlock.Explain(demand));
    }

    [Fact]
    public void Agreeing_once_begins_the_time_again()
    {
        _bench.Set(Bench.OtherSpeed, 0).ScanAfter(0, One, 200).Proceeds();
        _bench.ScanAfter(0.09, One, 0).Proceeds();
        _bench.ScanAfter(0.01, One, 200).Proceeds();
    }

    [Fact]
    public void One_channel_twice_is_refused()
    {
        ReadingsAgreeOptions options = new() { First = One, Second = One, Limit = 1 };
        Assert.Equal("readings-agree needs two channels, but both are rotor.speed",
            Assert.Throws<OptionException>(() => new Bench(new ReadingsAgreePlugin(), options)).Message);
    }

    [Fact]
    public void Channels_in_two_units_are_refused()
    {
        ReadingsAgreeOptions options = new() { First = One, Second = ChannelNames.BatteryVoltage, Limit = 1 };
        Assert.Equal("the channel battery.voltage is in V, but readings-agree reckons in rpm",
            Assert.Throws<OptionException>(() => new Bench(new ReadingsAgreePlugin(), options)).Message);
    }
}

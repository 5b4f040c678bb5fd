using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class PackTemperatureTests
{
    private const string Pack = ChannelNames.BatteryTemperature;

    private readonly Bench _bench = new(new PackTemperaturePlugin(), new PackTemperatureOptions { Lowest = 0, Highest = 60 });

    [Theory]
    [InlineData(30, 0.5)]
    [InlineData(45, 0.25)]
    [InlineData(15, 0.25)]
    [InlineData(60, 0)]
    [InlineData(0, 0)]
    public void A_pack_between_its_limits_may_go_on_with_a_margin_to_the_nearer_one(double temperature, double margin)
    {
        Assert.Equal(margin, _bench.Set(Pack, temperature).Scan().Proceeds().Margin);
        Assert.EndsWith("°C is within 0 °C to 60 °C", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-058")]
    [Fact]
    public void A_pack_that_is_too_hot_stops()
    {
        Demand demand = _bench.Set(Pack, 61.5).Scan().Objects();
        Assert.Equal((PackTemperature.TooHot, 61.5, 60.0), (demand.Reason, demand.Value, demand.Limit));
        Assert.Equal("battery 61.5 °C is above the highest of 60 °C; leave it alone and watch it", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-058")]
    [Fact]
    public void A_pack_that_is_too_cold_stops()
    {
        Assert.Equal(PackTemperature.TooCold, _bench.Set(Pack, -0.1).Scan().Objects().Reason);
        Assert.Equal("battery -0.1 °C is below the lowest of 0 °C; let it warm up", _bench.Sentence());
    }

    [Fact]
    public void A_peak_between_two_scans_is_seen()
    {
        Demand demand = _bench.Spread(Pack, last: 40, minimum: 40, maximum: 60.1).Scan().Objects();
        Assert.Equal(_bench.Now - Bench.Seconds(0.004), demand.ShownAt);
    }

    [Fact]
    public void Limits_the_wrong_way_round_are_refused()
    {
        PackTemperatureOptions options = new() { Lowest = 40, Highest = 40 };
        Assert.Equal("the highest temperature of 40 °C of pack-temperature is not above its lowest of 40 °C",
            Assert.Throws<OptionException>(() => new Bench(new PackTemperaturePlugin(), options)).Message);
    }
}

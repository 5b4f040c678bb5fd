using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class VibrationTests
{
    private const string Shake = ChannelNames.Vibration;

    private readonly Bench _bench = new(new VibrationPlugin(), new VibrationOptions { Limit = 50, For = 0.2 });

    [Fact]
    public void A_smooth_rotor_may_go_on()
    {
        Assert.Equal(0.8, _bench.Set(Shake, 10).Scan().Proceeds().Margin);
        Assert.Equal("vibration 10 m/s2 is within the limit of 50 m/s2", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-057")]
    [Theory]
    [InlineData(61)]
    [InlineData(-61)]
    public void Shaking_that_lasts_stops_whichever_way_it_goes(double shake)
    {
        _bench.ScanAfter(0, Shake, shake).Proceeds();
        Assert.Equal("vibration 61 m/s2 is above the limit of 50 m/s2, which is allowed for less than 0.2 s", _bench.Sentence());
        Demand demand = _bench.ScanAfter(0.2, Shake, shake).Objects();
        Assert.Equal("vibration 61 m/s2 has been above the limit of 50 m/s2 for 0.2 s", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-057")]
    [Fact]
    public void Without_an_allowed_time_one_knock_between_two_scans_stops()
    {
        Bench strict = new(new VibrationPlugin(), new VibrationOptions { Limit = 50 });
        Demand demand = strict.Spread(Shake, last: 0, minimum: -50.5, maximum: 3).Scan().Objects();
        Assert.Equal(strict.Now - Bench.Seconds(0.003), demand.ShownAt);
        Assert.Equal("vibration 50.5 m/s2 is above the limit of 50 m/s2", strict.Interlock.Explain(demand));
    }

    [Fact]
    public void A_resonance_that_is_passed_in_time_is_allowed()
    {
        _bench.ScanAfter(0, Shake, 80).Proceeds();
        _bench.ScanAfter(0.19, Shake, 20).Proceeds();
        _bench.ScanAfter(0.01, Shake, 80).Proceeds();
    }
}

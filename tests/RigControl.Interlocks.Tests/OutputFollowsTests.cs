using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class OutputFollowsTests
{
    private const string Pulse = ChannelNames.OutputPulse;

    private readonly Bench _bench = new(new OutputFollowsPlugin(), new OutputFollowsOptions { Tolerance = 10, Within = 0.05 }) { Throttle = 0.4 };

    [Fact]
    public void The_pulse_demanded_lets_the_rig_go_on()
    {
        Assert.Equal(1, _bench.Set(Pulse, 1400).Scan().Proceeds().Margin);
        Assert.Equal("output.pulse is the pulse demanded", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-060")]
    [Theory]
    [InlineData(1000, "output.pulse is 400 µs shorter than demanded and has not followed within 0.05 s; 10 µs is allowed")]
    [InlineData(1411, "output.pulse is 11 µs longer than demanded and has not followed within 0.05 s; 10 µs is allowed")]
    [InlineData(0, "output.pulse is 1400 µs shorter than demanded and has not followed within 0.05 s; 10 µs is allowed")]
    public void A_pulse_that_does_not_follow_in_time_stops(double pulse, string sentence)
    {
        _bench.ScanAfter(0, Pulse, pulse).Proceeds();
        _bench.ScanAfter(0.049, Pulse, pulse).Proceeds();
        Assert.Equal(sentence, _bench.Interlock.Explain(_bench.ScanAfter(0.001, Pulse, pulse).Objects()));
    }

    [Trait("Requirement", "SAF-060")]
    [Fact]
    public void A_pulse_that_stays_when_stop_is_demanded_stops_the_rig_by_its_power()
    {
        _bench.Set(Pulse, 1400).Scan().Proceeds();
        _bench.Throttle = 0;
        _bench.ScanAfter(0.005, Pulse, 1400).Proceeds();
        _bench.ScanAfter(0.05, Pulse, 1400).Objects(DemandAction.CutPower);
    }

    [Fact]
    public void A_ramp_on_which_the_pulse_trails_within_the_tolerance_may_go_on()
    {
        for (int scan = 0; scan < 100; scan++)
        {
            _bench.Throttle = 0.005 * scan;
            _bench.ScanAfter(0.005, Pulse, 1000 + Math.Max(0, 5 * (scan - 2))).Proceeds();
        }
    }

    [Fact]
    public void A_step_that_is_followed_in_time_may_go_on()
    {
        _bench.ScanAfter(0, Pulse, 1000).Proceeds();
        Assert.Equal("output.pulse is 400 µs shorter than demanded; 10 µs is allowed, and more for less than 0.05 s", _bench.Sentence());
        _bench.ScanAfter(0.045, Pulse, 1400).Proceeds();
        _bench.ScanAfter(0.045, Pulse, 1400).Proceeds();
    }

    [Fact]
    public void A_pulse_that_flickers_between_two_scans_counts()
    {
        _bench.Spread(Pulse, last: 1400, minimum: 1400, maximum: 1900).Scan().Proceeds();
        _bench.Wait(0.05).Spread(Pulse, last: 1400, minimum: 1400, maximum: 1900).Scan().Objects();
    }
}

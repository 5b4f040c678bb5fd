using CsCheck;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class RateLimitTests
{
    private const string Motor = ChannelNames.MotorTemperature;

    private readonly Bench _bench = new(new RateLimitPlugin(), new RateLimitOptions { Channel = Motor, Change = 5, Within = 1 });

    [Fact]
    public void A_reading_that_stays_may_go_on_with_the_whole_margin()
    {
        _bench.Scan().Proceeds();
        Assert.Equal(1, _bench.ScanAfter(1, Motor, 20).Proceeds().Margin);
        Assert.Equal("motor temperature changes no faster than 5 °C at once and as much again every 1 s", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-051")]
    [Fact]
    public void A_leap_upwards_stops()
    {
        _bench.Scan().Proceeds();
        Demand demand = _bench.ScanAfter(0.1, Motor, 25.6).Objects();
        Assert.Equal((RateLimit.Rises, 5.1, 5.0), (demand.Reason, Math.Round(demand.Value, 9), demand.Limit));
        Assert.Equal("motor temperature rises too fast: by 5.1 °C, and 5 °C at once and as much again every 1 s is allowed", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-051")]
    [Fact]
    public void A_fall_stops_as_well()
    {
        _bench.Scan().Proceeds();
        Assert.Equal(RateLimit.Falls, _bench.ScanAfter(0.1, Motor, 14).Objects().Reason);
        Assert.StartsWith("motor temperature falls too fast: by ", _bench.Sentence());
    }

    [Fact]
    public void A_change_of_exactly_what_is_allowed_may_go_on_with_nothing_left()
    {
        _bench.Scan().Proceeds();
        Assert.Equal(0, _bench.ScanAfter(0, Motor, 25).Proceeds().Margin);
    }

    [Fact]
    public void A_steady_climb_at_the_rate_allowed_may_go_on_for_ever()
    {
        for (int scan = 0; scan < 1000; scan++)
            _bench.ScanAfter(0.01, Motor, -30 + 0.05 * scan).Proceeds();
    }

    [Fact]
    public void A_climb_twice_as_fast_stops_when_it_is_ahead_by_the_change_allowed()
    {
        int scan = 0;
        while (_bench.ScanAfter(0.01, Motor, -30 + 0.1 * scan).Action == DemandAction.Proceed)
            Assert.True(++scan < 200, "it never stopped");
        Assert.InRange(scan, 99, 102);
    }

    [Fact]
    public void A_leap_between_two_scans_is_seen_whichever_way_it_went()
    {
        _bench.Spread(Motor, last: 20, minimum: 20, maximum: 26).Scan().Objects();
        _bench.Memory = default;
        ref ImageEntry entry = ref _bench.Spread(Motor, last: 26, minimum: 20, maximum: 26).Image[Bench.Index(Motor)];
        (entry.MinimumAt, entry.MaximumAt) = (entry.MaximumAt, entry.MinimumAt);
        Assert.Equal(RateLimit.Rises, _bench.Scan().Objects().Reason);
    }

    [Fact]
    public void A_reading_that_nobody_renewed_earns_no_allowance()
    {
        _bench.Scan().Proceeds();
        _bench.Wait(0.05).Scan().Proceeds();
        _bench.ScanAfter(0.05, Motor, 25.6).Objects();
    }

    [Fact]
    public void After_a_gap_the_change_of_the_gap_is_allowed()
    {
        _bench.Scan().Proceeds();
        _bench.Bad(Motor, BadCause.TooOld).Scan().Objects();
        _bench.ScanAfter(2, Motor, 34).Proceeds();
        _bench.ScanAfter(0.001, Motor, 41).Objects();
    }

    [Fact]
    public void The_first_reading_is_no_change() => _bench.Set(Motor, 200).Scan().Proceeds();

    // The two bounds must say the same as all pairs of readings compared one by one.
    [Fact]
    public void It_stops_exactly_where_some_pair_of_readings_is_too_far_apart() => Gen.Int[0, 40].Array[1, 40].Sample(
        steps =>
        {
            Bench bench = new(new RateLimitPlugin(), new RateLimitOptions { Channel = Motor, Change = 4, Within = 0.25 });
            for (int now = 0; now < steps.Length; now++)
            {
                bool tooFar = Enumerable.Range(0, now).Any(before => Math.Abs(steps[now] - steps[before]) > 4 + 2 * (now - before));
                Assert.Equal(tooFar, bench.ScanAfter(0.125, Motor, steps[now]).Action != DemandAction.Proceed);
            }
        },
        iter: 2000, threads: 1);
}

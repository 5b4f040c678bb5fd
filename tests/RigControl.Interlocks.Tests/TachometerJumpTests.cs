using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class TachometerJumpTests
{
    private const string Speed = ChannelNames.RotorSpeed;

    // 10,000 rpm a second: from 6000 rpm, one scan and one revolution of 10 ms, the rotor can change by 150 rpm.
    private readonly Bench _bench = new(new TachometerJumpPlugin(), new TachometerJumpOptions { Change = 10_000, Within = 1 });

    [Trait("Requirement", "SAF-054")]
    [Theory]
    [InlineData(12_000)]
    [InlineData(9601)]
    [InlineData(14_399)]
    public void A_reading_about_twice_the_one_before_stops(double doubled)
    {
        _bench.Set(Speed, 6000).Scan().Proceeds();
        Demand demand = _bench.ScanAfter(0.005, Speed, doubled).Objects();
        Assert.Equal((TachometerJump.Doubled, doubled, 6000.0), (demand.Reason, demand.Value, demand.Limit));
    }

    [Trait("Requirement", "SAF-054")]
    [Theory]
    [InlineData(3000)]
    [InlineData(3749)]
    [InlineData(2501)]
    public void A_reading_about_half_of_the_one_before_stops(double halved)
    {
        _bench.Set(Speed, 6000).Scan().Proceeds();
        Assert.Equal(TachometerJump.Missed, _bench.ScanAfter(0.005, Speed, halved).Objects().Reason);
    }

    [Fact]
    public void It_says_what_the_tachometer_does()
    {
        _bench.Set(Speed, 6000).Scan();
        Assert.Equal(
            "rotor 12000 rpm is about twice the 6000 rpm before, sooner than the rotor can get there: pulses are counted twice",
            _bench.Interlock.Explain(_bench.ScanAfter(0.005, Speed, 12_000)));
        Assert.Equal(
            "rotor 3000 rpm is about half of the 6000 rpm before, sooner than the rotor can get there: pulses are missed",
            _bench.Interlock.Explain(_bench.ScanAfter(0.005, Speed, 3000)));
        Assert.Equal("rotor 6010 rpm follows from the reading before", _bench.Interlock.Explain(_bench.ScanAfter(0.005, Speed, 6010)));
    }

    [Fact]
    public void A_jump_that_is_no_factor_of_two_is_another_interlock_s_business()
    {
        _bench.Set(Speed, 6000).Scan();
        _bench.ScanAfter(0.005, Speed, 9000).Proceeds();
    }

    [Fact]
    public void Doubling_in_the_time_that_the_rotor_needs_for_it_is_no_jump()
    {
        _bench.Set(Speed, 6000).Scan();
        _bench.ScanAfter(0.6, Speed, 12_000).Proceeds();
    }

    [Fact]
    public void A_slow_rotor_may_double_from_one_mark_to_the_next()
    {
        _bench.Set(Speed, 200).Scan();
        _bench.ScanAfter(0.005, Speed, 400).Proceeds();
    }

    [Fact]
    public void A_whole_spin_up_and_coast_down_at_the_rotor_s_own_rate_is_no_jump()
    {
        for (int scan = 0; scan < 200; scan++)
            _bench.ScanAfter(0.005, Speed, 50.0 * scan).Proceeds();
        for (int scan = 200; scan >= 0; scan--)
            _bench.ScanAfter(0.005, Speed, 50.0 * scan).Proceeds();
    }

    [Fact]
    public void A_doubled_reading_is_not_believed_before_the_rotor_could_have_got_there()
    {
        _bench.Set(Speed, 6000).Scan();
        for (int scan = 0; scan < 100; scan++)
            _bench.ScanAfter(0.005, Speed, 12_000).Objects();
        _bench.ScanAfter(0.2, Speed, 12_000).Proceeds();
    }

    [Fact]
    public void One_missed_pulse_between_two_scans_is_seen()
    {
        _bench.Set(Speed, 6000).Scan();
        _bench.Spread(Speed, last: 6000, minimum: 3000, maximum: 6000).Scan().Objects();
    }
}

using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class TemperatureCeilingTests
{
    private const string Motor = ChannelNames.MotorTemperature;

    private readonly Bench _bench = new(new TemperatureCeilingPlugin(), new TemperatureCeilingOptions { Ceiling = 80, Rise = 10, Window = 1 });

    [Fact]
    public void A_cool_motor_may_go_on_and_shows_its_margin()
    {
        Assert.Equal(0.75, _bench.Scan().Proceeds().Margin);
        Assert.Equal("motor 20 °C is within the ceiling of 80 °C", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-014")]
    [Fact]
    public void A_motor_above_the_ceiling_stops_and_says_by_how_much()
    {
        Demand demand = _bench.Set(Motor, 81.3).Scan().Objects();
        Assert.Equal((TemperatureCeiling.TooHot, 81.3, 80.0), (demand.Reason, demand.Value, demand.Limit));
        Assert.Equal("motor 81.3 °C is above the ceiling of 80 °C", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void A_motor_exactly_at_the_ceiling_may_go_on_with_nothing_left() => Assert.Equal(0, _bench.Set(Motor, 80).Scan().Proceeds().Margin);

    [Fact]
    public void The_next_number_above_the_ceiling_stops() => _bench.Set(Motor, Math.BitIncrement(80.0)).Scan().Objects();

    [Fact]
    public void A_reading_just_above_the_ceiling_is_never_shown_as_equal_to_it() =>
        Assert.Equal("motor 80.004 °C is above the ceiling of 80 °C", _bench.Set(Motor, 80.004).Sentence());

    [Fact]
    public void A_spike_between_two_scans_stops_and_says_when()
    {
        Demand demand = _bench.Spread(Motor, last: 21, minimum: 20, maximum: 95).Scan().Objects();
        Assert.Equal((95.0, _bench.Now - Bench.Seconds(0.004)), (demand.Value, demand.ShownAt));
    }

    [Fact]
    public void A_motor_below_freezing_has_the_whole_margin() => Assert.Equal(1, _bench.Set(Motor, -20).Scan().Proceeds().Margin);

    [Trait("Requirement", "SAF-014")]
    [Fact]
    public void A_rise_faster_than_allowed_stops_far_below_the_ceiling()
    {
        _bench.Scan().Proceeds();
        Demand demand = _bench.ScanAfter(0.9, Motor, 30.5).Objects();
        Assert.Equal((TemperatureCeiling.TooFast, 10.5, 10.0), (demand.Reason, demand.Value, demand.Limit));
        Assert.Equal("motor temperature rose by 10.5 K within 2 s; 10 K in 1 s is allowed", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void A_rise_of_exactly_what_is_allowed_may_go_on_with_nothing_left()
    {
        _bench.Scan().Proceeds();
        Assert.Equal(0, _bench.ScanAfter(0.9, Motor, 30).Proceeds().Margin);
    }

    [Theory]
    [InlineData(0.00)]
    [InlineData(0.35)]
    [InlineData(0.70)]
    [InlineData(0.995)]
    [InlineData(1.40)]
    public void A_rise_within_one_window_is_seen_whenever_it_begins(double begin)
    {
        DemandAction seen = DemandAction.Proceed;
        for (int scan = 1; scan <= 600; scan++)
        {
            double time = scan * 0.005;
            double share = Math.Clamp((time - begin) / 0.99, 0, 1);
            Demand demand = _bench.ScanAfter(0.005, Motor, 20 + 10.2 * share);
            seen = demand.Action < seen ? demand.Action : seen;
        }

        Assert.Equal(DemandAction.CutPower, seen);
    }

    [Fact]
    public void A_rise_that_takes_longer_than_two_windows_is_none()
    {
        for (int scan = 1; scan <= 2000; scan++)
            _bench.ScanAfter(0.005, Motor, 20 + 0.0249 * scan).Proceeds();
    }

    [Fact]
    public void Cooling_down_is_no_rise()
    {
        for (int scan = 0; scan < 400; scan++)
            _bench.ScanAfter(0.005, Motor, 79 - 0.1 * scan).Proceeds();
    }

    [Fact]
    public void A_fall_between_two_scans_is_no_rise() => _bench.Spread(Motor, last: 40, minimum: 40, maximum: 70).Scan().Proceeds();

    [Fact]
    public void A_rise_between_two_scans_is_one()
    {
        _bench.Spread(Motor, last: 70, minimum: 40, maximum: 70);
        ref ImageEntry entry = ref _bench.Image[Bench.Index(Motor)];
        (entry.MinimumAt, entry.MaximumAt) = (entry.MaximumAt, entry.MinimumAt);
        Assert.Equal(TemperatureCeiling.TooFast, _bench.Scan().Objects().Reason);
    }

    [Fact]
    public void A_dip_before_one_scan_counts_in_the_next()
    {
        _bench.Spread(Motor, last: 55, minimum: 40, maximum: 70).Scan().Proceeds();
        Assert.Equal(TemperatureCeiling.TooFast, _bench.ScanAfter(0.005, Motor, 60).Objects().Reason);
    }

    [Fact]
    public void The_first_reading_of_a_warm_motor_is_no_rise() => _bench.Set(Motor, 79).Scan().Proceeds();

    [Fact]
    public void After_a_gap_of_two_windows_the_rise_is_counted_anew()
    {
        _bench.Scan().Proceeds();
        _bench.ScanAfter(2, Motor, 50).Proceeds();
    }

    [Fact]
    public void A_gap_shorter_than_that_hides_no_rise()
    {
        _bench.Scan().Proceeds();
        _bench.Bad(Motor, BadCause.TooOld).Scan().Objects();
        _bench.ScanAfter(0.9, Motor, 50).Objects();
    }

    [Fact]
    public void A_burst_of_bad_readings_names_its_cause()
    {
        _bench.Bad(Motor, BadCause.OutOfRange);
        Assert.Equal("motor temperature reads outside -40 °C to 300 °C, where it can be true", _bench.Sentence());
    }
}

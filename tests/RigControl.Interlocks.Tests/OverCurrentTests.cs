using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class OverCurrentTests
{
    private const string Current = ChannelNames.BatteryCurrent;

    private readonly Bench _bench = new(new OverCurrentPlugin(), new OverCurrentOptions { Limit = 60, For = 0.5, Peak = 100 });

    [Fact]
    public void A_current_below_its_limit_may_go_on()
    {
        Assert.Equal(0.5, _bench.Set(Current, 30).Scan().Proceeds().Margin);
        Assert.Equal("battery 30 A is within the limit of 60 A", _bench.Sentence());
    }

    [Fact]
    public void The_limit_itself_may_last_for_ever()
    {
        _bench.ScanAfter(0, Current, 60).Proceeds();
        Assert.Equal(0, _bench.ScanAfter(100, Current, 60).Proceeds().Margin);
    }

    [Fact]
    public void A_start_up_peak_shorter_than_allowed_may_go_on_with_nothing_left()
    {
        Assert.Equal(0, _bench.ScanAfter(0, Current, 90).Proceeds().Margin);
        _bench.ScanAfter(0.49, Current, 90).Proceeds();
        Assert.Equal("battery 90 A is above the limit of 60 A, which is allowed for less than 0.5 s", _bench.Sentence());
        Assert.True(_bench.ScanAfter(0.005, Current, 50).Proceeds().Margin > 0);
    }

    [Trait("Requirement", "SAF-016")]
    [Fact]
    public void An_overload_that_lasts_stops_at_the_allowed_time_counted_from_its_first_reading()
    {
        _bench.ScanAfter(0, Current, 64.2).Proceeds();
        _bench.ScanAfter(0.497, Current, 64.2).Proceeds();
        Demand demand = _bench.ScanAfter(0.001, Current, 64.2).Objects();
        Assert.Equal((OverCurrent.AboveLimit, 64.2, 60.0), (demand.Reason, demand.Value, demand.Limit));
        Assert.Equal("battery 64.2 A has been above the limit of 60 A for 0.5 s", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void One_scan_below_the_limit_begins_the_time_again()
    {
        _bench.ScanAfter(0.0, Current, 70).Proceeds();
        _bench.ScanAfter(0.4, Current, 59).Proceeds();
        _bench.ScanAfter(0.2, Current, 70).Proceeds();
        _bench.ScanAfter(0.4, Current, 70).Proceeds();
        _bench.ScanAfter(0.1, Current, 70).Objects();
    }

    [Fact]
    public void A_current_that_chops_faster_than_the_scan_counts_as_lasting()
    {
        _bench.Spread(Current, last: 0, minimum: 0, maximum: 70).Scan().Proceeds();
        _bench.ScanAfter(0.25, Current, 70).Proceeds();
        _bench.ScanAfter(0.25, Current, 70).Objects();
    }

    [Trait("Requirement", "SAF-016")]
    [Fact]
    public void A_peak_beyond_the_absolute_one_stops_at_once_even_between_two_scans()
    {
        Demand demand = _bench.Spread(Current, last: 20, minimum: 10, maximum: 100.5).Scan().Objects();
        Assert.Equal((OverCurrent.AbovePeak, 100.5, 100.0), (demand.Reason, demand.Value, demand.Limit));
        Assert.Equal(_bench.Now - Bench.Seconds(0.004), demand.ShownAt);
        Assert.Equal("battery 100.5 A is above the peak of 100 A", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void The_absolute_peak_itself_is_allowed_for_a_moment() => _bench.Set(Current, 100).Scan().Proceeds();

    [Fact]
    public void A_sensor_wired_the_wrong_way_round_trips_as_well()
    {
        Assert.Equal(OverCurrent.AbovePeak, _bench.Set(Current, -101).Scan().Objects().Reason);
        Assert.Equal("battery 101 A backwards is above the peak of 100 A", _bench.Sentence());
    }

    [Fact]
    public void An_overload_goes_on_counting_while_it_cannot_be_read()
    {
        _bench.ScanAfter(0, Current, 70).Proceeds();
        _bench.Bad(Current, BadCause.Reported).Scan().Objects();
        _bench.ScanAfter(0.6, Current, 70).Objects();
    }

    [Fact]
    public void Without_an_allowed_time_the_limit_trips_at_once()
    {
        Bench strict = new(new OverCurrentPlugin(), new OverCurrentOptions { Limit = 60, Peak = 100 });
        strict.Set(Current, 60.1).Scan().Objects();
        Assert.Equal("battery 60.1 A is above the limit of 60 A", strict.Sentence());
    }

    [Theory]
    [InlineData(1000)]
    [InlineData(-1000)]
    public void A_wrong_time_stamp_does_not_postpone_the_trip(double stamp)
    {
        Bench strict = new(new OverCurrentPlugin(), new OverCurrentOptions { Limit = 60, Peak = 100 });
        strict.Set(Current, 61).Image[Bench.Index(Current)].MaximumAt = Bench.Seconds(stamp);
        strict.Scan().Objects();
    }

    [Fact]
    public void A_peak_below_the_limit_is_refused()
    {
        OverCurrentOptions options = new() { Limit = 60, Peak = 50 };
        string message = Assert.Throws<OptionException>(() => new Bench(new OverCurrentPlugin(), options)).Message;
        Assert.Equal("the peak of 50 A of over-current is below its limit of 60 A; write a peak of at least the limit", message);
    }
}

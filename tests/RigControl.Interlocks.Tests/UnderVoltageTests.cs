using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class UnderVoltageTests
{
    private const string Voltage = ChannelNames.BatteryVoltage;

    private readonly Bench _bench = new(new UnderVoltagePlugin(), new UnderVoltageOptions { Limit = 9, For = 0.5 });

    [Fact]
    public void A_full_pack_may_go_on()
    {
        Assert.Equal((12.0 - 9) / 9, _bench.Scan().Proceeds().Margin);
        Assert.Equal("battery 12 V is above the limit of 9 V", _bench.Sentence());
    }

    [Fact]
    public void A_reading_far_above_the_limit_shows_no_more_than_the_whole_margin() =>
        Assert.Equal(1, _bench.Set(Voltage, 50).Scan().Proceeds().Margin);

    [Fact]
    public void The_limit_itself_may_last_for_ever()
    {
        _bench.ScanAfter(0, Voltage, 9).Proceeds();
        _bench.ScanAfter(100, Voltage, 9).Proceeds();
    }

    [Fact]
    public void A_short_sag_may_go_on_with_nothing_left()
    {
        Assert.Equal(0, _bench.ScanAfter(0, Voltage, 8.2).Proceeds().Margin);
        Assert.Equal("battery 8.2 V is below the limit of 9 V, which is allowed for less than 0.5 s", _bench.Sentence());
        _bench.ScanAfter(0.49, Voltage, 11).Proceeds();
    }

    [Trait("Requirement", "SAF-017")]
    [Fact]
    public void A_sag_that_lasts_stops()
    {
        _bench.ScanAfter(0, Voltage, 8.2).Proceeds();
        Demand demand = _bench.ScanAfter(0.5, Voltage, 8.2).Objects();
        Assert.Equal((8.2, 9.0), (demand.Value, demand.Limit));
        Assert.Equal("battery 8.2 V has been below the limit of 9 V for 0.5 s", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-017")]
    [Fact]
    public void A_sag_between_two_scans_is_not_missed()
    {
        Bench strict = new(new UnderVoltagePlugin(), new UnderVoltageOptions { Limit = 9 });
        Demand demand = strict.Spread(Voltage, last: 12, minimum: 8.99, maximum: 12).Scan().Objects();
        Assert.Equal(strict.Now - Bench.Seconds(0.003), demand.ShownAt);
        Assert.Equal("battery 8.99 V is below the limit of 9 V", strict.Interlock.Explain(demand));
    }

    [Fact]
    public void The_next_number_below_the_limit_stops()
    {
        Bench strict = new(new UnderVoltagePlugin(), new UnderVoltageOptions { Limit = 9 });
        strict.Set(Voltage, 9).Scan().Proceeds();
        strict.Set(Voltage, Math.BitDecrement(9.0)).Scan().Objects();
    }

    [Fact]
    public void A_pack_that_cannot_be_read_stops()
    {
        _bench.Bad(Voltage, BadCause.FromTheFuture).Scan().Objects();
        Assert.Equal("battery voltage is stamped later than the scan that read it, so a clock is wrong", _bench.Sentence());
    }
}

using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class FrozenReadingTests
{
    private const string Voltage = ChannelNames.BatteryVoltage;

    private readonly Bench _bench = new(new FrozenReadingPlugin(), new FrozenReadingOptions { Channel = Voltage, Samples = 50 });

    [Fact]
    public void A_reading_that_moves_may_go_on()
    {
        for (int scan = 0; scan < 200; scan++)
            _bench.ScanAfter(0.005, Voltage, 12 + scan % 2 * 0.001).Proceeds();
        Assert.Equal("battery voltage moves as a live sensor does", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-052")]
    [Fact]
    public void A_reading_that_is_the_same_for_the_stated_number_of_samples_stops()
    {
        // Each scan of the bench brings three readings: 48 after sixteen, 51 after seventeen.
        for (int scan = 0; scan < 16; scan++)
            _bench.ScanAfter(0.005, Voltage, 12).Proceeds();
        Demand demand = _bench.ScanAfter(0.005, Voltage, 12).Objects();
        Assert.Equal((51.0, 50.0), (demand.Value, demand.Limit));
        Assert.Equal("battery voltage has been the same for 51 readings in a row, which no live sensor is; 50 count as frozen", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void Scans_without_a_new_reading_do_not_count()
    {
        _bench.Scan().Proceeds();
        _bench.Image[Bench.Index(Voltage)].Count = 0;
        for (int scan = 0; scan < 1000; scan++)
            _bench.Wait(0.00001).Scan().Proceeds();
    }

    [Fact]
    public void One_reading_that_differs_begins_the_count_again()
    {
        for (int scan = 0; scan < 16; scan++)
            _bench.ScanAfter(0.005, Voltage, 12).Proceeds();
        _bench.Spread(Voltage, last: 12, minimum: 12, maximum: 12.001).Scan().Proceeds();
        for (int scan = 0; scan < 16; scan++)
            _bench.ScanAfter(0.005, Voltage, 12).Proceeds();
    }

    [Trait("Requirement", "SAF-052")]
    [Fact]
    public void A_channel_without_a_noise_floor_is_refused_since_it_may_stand_still_for_ever()
    {
        FrozenReadingOptions options = new() { Channel = ChannelNames.RadioLink, Samples = 50 };
        Assert.Equal(
            "the channel radio.link declares no noise floor, so that it may stand still for ever; frozen-reading cannot watch it",
            Assert.Throws<OptionException>(() => new Bench(new FrozenReadingPlugin(), options)).Message);
    }
}

using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class StopClearTests
{
    private const string Stop = ChannelNames.StopClear;

    private readonly Bench _bench = new(new StopClearPlugin(), new StopClearOptions());

    [Fact]
    public void A_closed_stop_circuit_lets_the_rig_go_on()
    {
        Assert.Equal(1, _bench.Scan().Proceeds().Margin);
        Assert.Equal("the stop circuit is closed", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-012")]
    [Fact]
    public void A_pressed_stop_or_a_broken_wire_cuts_the_power()
    {
        _bench.Set(Stop, 0).Scan().Objects();
        Assert.Equal("a stop is pressed or its wire is broken: stop.clear reads 0, not 1", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-012")]
    [Fact]
    public void A_stop_tapped_between_two_scans_is_not_missed()
    {
        Demand demand = _bench.Spread(Stop, last: 1, minimum: 0, maximum: 1).Scan().Objects();
        Assert.Equal((0.0, _bench.Now - Bench.Seconds(0.003)), (demand.Value, demand.ShownAt));
    }

    [Theory]
    [InlineData(0.999)]
    [InlineData(1.001)]
    [InlineData(-1)]
    public void A_circuit_that_reads_anything_but_1_is_not_closed(double value) => _bench.Set(Stop, value).Scan().Objects();

    [Fact]
    public void A_reading_obtained_only_after_a_retry_still_counts() => _bench.Set(Stop, 1, Quality.Uncertain).Scan().Proceeds();

    [Fact]
    public void A_stop_that_cannot_be_read_counts_as_pressed()
    {
        _bench.Bad(Stop, BadCause.Reported).Scan().Objects();
        Assert.Equal("the device that reads stop clear calls its own reading bad", _bench.Sentence());
    }

    [Fact]
    public void The_rig_file_chooses_what_a_pressed_stop_asks_for()
    {
        Bench gentle = new(new StopClearPlugin(), new StopClearOptions(), DemandAction.StopOutput);
        gentle.Set(Stop, 0).Scan().Objects(DemandAction.StopOutput);
        gentle.Bad(Stop, BadCause.Never).Scan().Objects(DemandAction.StopOutput);
    }
}

namespace RigControl.Physics.Tests;

public class SpeedControllerTests
{
    private static readonly SpeedController OneWay = new();
    private static readonly SpeedController TwoWay = new() { Mode = ControllerMode.TwoWay, StopPulse = 1500 };

    [Theory]
    [InlineData(1000, 0)]
    [InlineData(1500, 0.5)]
    [InlineData(2000, 1)]
    [InlineData(2080, 1)]
    [InlineData(950, 0)]
    public void A_one_way_controller_reads_its_pulse_from_stop_to_full(double pulse, double demand)
        => Assert.Equal(demand, OneWay.Demand(pulse));

    [Theory]
    [InlineData(1500, 0)]
    [InlineData(2000, 1)]
    [InlineData(1000, -1)]
    [InlineData(1250, -0.5)]
    [InlineData(1510, 0)]
    public void A_two_way_controller_reads_stop_in_the_middle(double pulse, double demand)
        => Assert.Equal(demand, TwoWay.Demand(pulse));

    [Fact]
    public void The_lowest_pulse_is_full_reverse_on_a_two_way_controller_and_stop_on_a_one_way_one()
    {
        Assert.Equal(-1, TwoWay.Demand(1000));
        Assert.Equal(0, OneWay.Demand(1000));
    }

    [Theory]
    [InlineData(2000, 0)]
    [InlineData(1500, 0.5)]
    [InlineData(1000, 1)]
    public void A_reversed_controller_takes_a_shorter_pulse_for_more(double pulse, double demand)
        => Assert.Equal(demand, (OneWay with { Reversed = true, StopPulse = 2000 }).Demand(pulse));

    [Fact]
    public void A_reversed_two_way_controller_turns_backwards_on_longer_pulses()
        => Assert.Equal(-1, (TwoWay with { Reversed = true }).Demand(2000));

    [Theory]
    [InlineData(0, false)]
    [InlineData(880, false)]
    [InlineData(900, true)]
    [InlineData(2100, true)]
    [InlineData(2120, false)]
    public void A_pulse_far_outside_the_range_is_none(double pulse, bool heard) => Assert.Equal(heard, OneWay.Hears(pulse));

    [Fact]
    public void Demand_never_falls_while_the_pulse_grows()
    {
        for (double pulse = 900; pulse < 2100; pulse++)
        {
            Assert.True(OneWay.Demand(pulse + 1) >= OneWay.Demand(pulse));
            Assert.True(TwoWay.Demand(pulse + 1) >= TwoWay.Demand(pulse));
        }
    }

    [Fact]
    public void A_controller_whose_range_is_nothing_asks_for_nothing()
        => Assert.Equal(0, (OneWay with { MaximumPulse = 1000 }).Demand(1100));
}

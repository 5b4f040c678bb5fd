using RigControl.Devices.RigBoard.Driving;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Driving;

public class BoardDemandTests
{
    private static readonly BoardConfiguration Configuration = ConfigurationOfRig.Build(Workshop.Options(), Workshop.Disc);
    private static readonly BoardDemand Nothing = new(1000, Power: false, Release: false, Marker: false, Second: 0, Gate: false);

    [Fact]
    public void The_zero_image_asks_for_stop_without_power() => Assert.Equal(Nothing, BoardDemand.Of(default, Configuration));

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void No_pulse_is_asked_for_under_power_alone()
    {
        Assert.Equal(Nothing with { Pulse = 0, Power = true }, Of(0, OutputSwitches.Power | OutputSwitches.Unlocked));
        Assert.Equal(Nothing, Of(0, OutputSwitches.None));
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(0.001)]
    [InlineData(999.4)]
    [InlineData(2000.6)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-1500)]
    public void A_pulse_that_may_not_be_is_stop_without_power(double pulse) =>
        Assert.Equal(Nothing, Of(pulse, OutputSwitches.Power | OutputSwitches.Unlocked) with { Release = false });

    [Theory]
    [InlineData(999.6, 1000)]
    [InlineData(1500.4, 1500)]
    [InlineData(2000.4, 2000)]
    public void A_pulse_is_rounded_to_a_microsecond_within_its_range(double pulse, int expected) =>
        Assert.Equal(expected, Of(pulse, OutputSwitches.Power).Pulse);

    [Fact]
    public void The_lid_is_never_released_together_with_power_or_a_pulse()
    {
        Assert.True(Of(1000, OutputSwitches.Unlocked).Release);
        Assert.False(Of(1000, OutputSwitches.Unlocked | OutputSwitches.Power).Release);
        Assert.False(Of(1200, OutputSwitches.Unlocked).Release);
    }

    [Fact]
    public void Whatever_takes_something_back_lowers_and_whatever_adds_does_not()
    {
        BoardDemand driven = Of(1500, OutputSwitches.Power);
        BoardDemand armed = Of(1000, OutputSwitches.Power);
        Assert.True(armed.Lowers(driven, Configuration));
        Assert.True(Nothing.Lowers(Of(0, OutputSwitches.Power), Configuration));
        Assert.True(Nothing.Lowers(armed, Configuration));
        Assert.True(Nothing.Lowers(Of(1000, OutputSwitches.Unlocked), Configuration));
        Assert.False(driven.Lowers(armed, Configuration));
        Assert.False(armed.Lowers(Nothing, Configuration));
        Assert.False(Of(1400, OutputSwitches.Power).Lowers(driven, Configuration));
    }

    private static BoardDemand Of(double pulse, OutputSwitches switches) =>
        BoardDemand.Of(new OutputImage { Pulse = pulse, Switches = switches }, Configuration);
}

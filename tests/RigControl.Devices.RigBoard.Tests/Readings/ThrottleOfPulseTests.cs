using RigControl.Devices.RigBoard.Readings;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Readings;

public class ThrottleOfPulseTests
{
    [Theory]
    [InlineData(1000, 1000, 0)]
    [InlineData(1000, 1009, 0)]
    [InlineData(1500, 1492, 50)]
    [InlineData(1000, 1500, 50)]
    [InlineData(1500, 0, 0)]
    [InlineData(1000, 900, -10)]
    public void Throttle_is_what_comes_out_and_not_what_was_asked_for(ushort demanded, ushort measured, double percent) =>
        Assert.Equal(percent, new ThrottleOfPulse(Workshop.Disc.Controller).Percent(demanded, measured), 9);

    [Theory]
    [InlineData(PulseDirection.Longer)]
    [InlineData(PulseDirection.Shorter)]
    public void Every_throttle_of_a_two_way_controller_comes_back_from_its_pulse(PulseDirection direction)
    {
        ControllerProfile controller = Workshop.Disc.Controller with
        {
            Mode = ControllerMode.TwoWay, StopPulse = 1500, MinimumPulse = 1000, MaximumPulse = 1900, Direction = direction,
        };
        ThrottleOfPulse throttle = new(controller);
        for (int percent = -100; percent <= 100; percent += 10)
        {
            ushort pulse = (ushort)controller.PulseFor(percent / 100.0);
            Assert.Equal(percent, throttle.Percent(pulse, pulse), 9);
        }
    }
}

using RigControl.Contracts;
using RigControl.Devices.RigBoard.Driving;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Driving;

public class SecondOutputTests
{
    private static readonly ControllerProfile Servo = Workshop.Disc.Controller with
    {
        Mode = ControllerMode.Servo, StopPulse = 1500, MinimumPulse = 1100, MaximumPulse = 1900, WhenPulsesCease = CeasedPulseBehaviour.Unknown,
    };

    private static readonly Article Two = Workshop.Disc with { SecondController = Servo };
    private static readonly BoardConfiguration Configuration = ConfigurationOfRig.Build(Workshop.Options(), Two);

    [Fact]
    public void The_board_is_told_the_second_output_s_pulses_and_none_where_nothing_is_on_it()
    {
        Assert.EndsWith(" stop 1500 1100 1900", Configuration.Text, StringComparison.Ordinal);
        Assert.EndsWith(" stop none", ConfigurationOfRig.Build(Workshop.Options(), Workshop.Disc).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_longest_configuration_there_is_fits_a_line_of_the_board()
    {
        string longest = "load FFFF 1 2200 2200 2200 2200 400 16 4000000 511 1023 200 10000 1000 500 500 200 cease 2200 2200 2200 #FFFF\n";
        Assert.True(longest.Length <= LineWriter.Longest, $"{longest.Length} bytes");
    }

    [Theory]
    [InlineData(1100, 1100, true)]
    [InlineData(1899.6, 1900, true)]
    [InlineData(1090, 1500, false)]
    [InlineData(double.NaN, 1500, false)]
    public void A_second_pulse_that_may_not_be_is_its_stop_without_power(double pulse, int expected, bool power)
    {
        BoardDemand demand = BoardDemand.Of(new OutputImage { Pulse = 1000, SecondPulse = pulse, Switches = OutputSwitches.Power }, Configuration);
        Assert.Equal((1000, expected, power), (demand.Pulse, demand.Second, demand.Power));
    }

    [Fact]
    public void A_second_output_off_its_stop_holds_the_lid()
    {
        OutputImage unlocked = new() { Pulse = 1000, SecondPulse = 1500, Switches = OutputSwitches.Unlocked };
        Assert.True(BoardDemand.Of(unlocked, Configuration).Release);
        Assert.False(BoardDemand.Of(unlocked with { SecondPulse = 1600 }, Configuration).Release);
    }

    [Fact]
    public void Ceasing_pulses_needs_both_controllers_to_stop_without_them()
    {
        RigBoardOptions options = Workshop.Options();
        options.OnTrip = TripOutput.NoPulses;
        Assert.True(ConfigurationOfRig.Build(options, Workshop.Disc).Ceases);
        Assert.Throws<OptionException>(() => ConfigurationOfRig.Build(options, Two));
    }

    [Fact]
    public void A_second_pulse_outside_what_the_board_puts_out_is_named()
    {
        Article wide = Workshop.Disc with { SecondController = Servo with { MaximumPulse = 2300 } };
        OptionException refused = Assert.Throws<OptionException>(() => ConfigurationOfRig.Build(Workshop.Options(), wide));
        Assert.Equal("the article's second maximum pulse is 2300 us, but the rig board puts out 800 us to 2200 us", refused.Message);
    }
}

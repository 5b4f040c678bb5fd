using RigControl.Contracts;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Opening;

public class ConfigurationOfRigTests
{
    [Fact]
    public void The_board_is_given_the_articles_pulses_and_the_rigs_limits()
    {
        BoardConfiguration built = ConfigurationOfRig.Build(Workshop.Options(), Workshop.Disc);
        Assert.Equal("1000 1000 2000 1000 400 1 6316 144 880 1 1000 1 100 100 20 stop none", built.Text);
    }

    [Fact]
    public void Limits_in_the_board_are_never_wider_than_those_written()
    {
        Random chance = new(7);
        for (int i = 0; i < 2000; i++)
        {
            RigBoardOptions options = Workshop.Options();
            options.OverSpeed = 15 + chance.NextDouble() * 9985;
            options.OverCurrent = 1 + chance.NextDouble() * 60;
            options.TachometerLostAfter = 0.02 + chance.NextDouble() * 9.98;
            options.OverCurrentFor = chance.NextDouble() * 0.05;
            BoardConfiguration built = ConfigurationOfRig.Build(options, Workshop.Disc);
            Assert.True(60e6 / built.ShortestRevolution <= options.OverSpeed, $"over-speed, seed 7, case {i}");
            Assert.True((built.HighestCurrent - 512) * 62.5 / 512 <= options.OverCurrent, $"over-current, seed 7, case {i}");
            Assert.Equal(512 - built.LowestCurrent, built.HighestCurrent - 512);
            Assert.True(built.TachometerLost <= options.TachometerLostAfter * 1000 + 1e-6, $"tachometer, seed 7, case {i}");
            Assert.InRange((built.CurrentReadings - 1) * 0.0003, 0, options.OverCurrentFor);
            Assert.InRange(built.CurrentReadings, 1, 200);
        }
    }

    [Fact]
    public void A_reversed_two_way_controller_keeps_its_least_and_greatest_pulse_in_order()
    {
        Article article = With(c => c with { Mode = ControllerMode.TwoWay, StopPulse = 1500, MinimumPulse = 1100, MaximumPulse = 1900, Direction = PulseDirection.Shorter });
        BoardConfiguration built = ConfigurationOfRig.Build(Workshop.Options(), article);
        Assert.Equal((1500, 1100, 1900), (built.StopPulse, built.LeastPulse, built.GreatestPulse));
    }

    [Fact]
    public void The_tachometer_is_watched_from_a_throttle_told_in_microseconds()
    {
        RigBoardOptions options = Workshop.Options();
        options.TachometerWatchedFrom = 10;
        Assert.Equal(100, ConfigurationOfRig.Build(options, Workshop.Disc).TachometerFrom);
    }

    [Fact]
    public void A_rig_without_tachometer_says_none_and_needs_no_time_for_it()
    {
        RigBoardOptions options = Workshop.Options();
        (options.Tachometer, options.TachometerLostAfter) = (false, double.NaN);
        Assert.Contains(" none ", ConfigurationOfRig.Build(options, Workshop.Disc).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("port is missing")]
    [InlineData("over-speed is 12000 rpm, above the 10000 rpm that the rotor of disc-180 allows")]
    [InlineData("over-current is 62.5 A, which a sensor of 62.5 A full scale cannot tell")]
    [InlineData("over-current is 0.1 A, which a sensor")]
    [InlineData("tachometer-lost-after is missing")]
    public void Options_that_cannot_be_are_refused_with_what_to_write(string sentence)
    {
        RigBoardOptions options = Workshop.Options();
        switch (sentence.Split(' ')[0] + sentence.Split(' ')[2])
        {
            case "portmissing": options.Port = " "; break;
            case "over-speed12000": options.OverSpeed = 12000; break;
            case "over-current62.5": options.OverCurrent = 62.5; break;
            case "over-current0.1": options.OverCurrent = 0.1; break;
            default: options.TachometerLostAfter = double.NaN; break;
        }

        Assert.StartsWith(sentence, Refusal(options, Workshop.Disc), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(700)]
    [InlineData(2300)]
    [InlineData(double.NaN)]
    public void A_pulse_that_the_board_cannot_put_out_is_refused(double pulse) =>
        Assert.Contains("the rig board puts out 800 us to 2200 us", Refusal(Workshop.Options(), With(c => c with { MaximumPulse = pulse })), StringComparison.Ordinal);

    [Theory]
    [InlineData(CeasedPulseBehaviour.Unknown)]
    [InlineData(CeasedPulseBehaviour.RunsOn)]
    public void Pulses_may_cease_only_where_the_controller_is_known_to_stop_then(CeasedPulseBehaviour behaviour)
    {
        RigBoardOptions options = Workshop.Options();
        options.OnTrip = TripOutput.NoPulses;
        Assert.Contains("write stop-pulse", Refusal(options, With(c => c with { WhenPulsesCease = behaviour })), StringComparison.Ordinal);
        Assert.EndsWith("cease none", ConfigurationOfRig.Build(options, Workshop.Disc).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Scans_too_rare_to_keep_the_board_fed_are_refused()
    {
        ConfigurationOfRig.RequireScanRate(TimeSpan.FromMilliseconds(40));
        Assert.Contains("25 Hz", Assert.Throws<OptionException>(() => ConfigurationOfRig.RequireScanRate(TimeSpan.FromMilliseconds(41))).Message, StringComparison.Ordinal);
    }

    private static string Refusal(RigBoardOptions options, Article article) =>
        Assert.Throws<OptionException>(() => ConfigurationOfRig.Build(options, article)).Message;

    private static Article With(Func<ControllerProfile, ControllerProfile> change) =>
        Workshop.Disc with { Controller = change(Workshop.Disc.Controller) };
}

using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>What a board puts out before it has been told everything, and after a reset.</summary>
public sealed class StartTests
{
    [Trait("Requirement", "SAF-030")]
    [Fact]
    public void A_board_that_is_powered_up_puts_out_nothing_at_all()
    {
        using var stand = new Stand(Programs.Firmware);
        var host = new LineHost(stand, new BoardConfiguration());
        host.Run(400);
        Assert.NotNull(host.Status);
        AssertNothingCameOut(stand);
    }

    [Fact]
    public void No_pulse_comes_out_for_a_host_that_drives_without_loading()
    {
        using var stand = new Stand(Programs.Firmware);
        var host = new LineHost(stand, new BoardConfiguration());
        host.Run(200);
        (host.Pulse, host.Power, host.Speaking) = (1000, true, true);
        host.Run(300);
        Assert.Contains(host.Heard, line => line.Word == "no" && line.Fields[1] == "drive");
        AssertNothingCameOut(stand);
    }

    [Trait("Requirement", "SAF-030")]
    [Fact]
    public void No_pulse_comes_out_between_the_load_and_the_first_drive_that_confirms_it()
    {
        using var stand = new Stand(Programs.Firmware);
        var host = new LineHost(stand, new BoardConfiguration());
        host.Load();
        host.Speaking = false;
        host.Run(200);
        AssertNothingCameOut(stand);
        host.Speaking = true;
        host.Run(50);
        Assert.NotEmpty(stand.Pins.Pulses);
        Assert.All(stand.Pins.Pulses, pulse => Assert.Equal(1000, pulse.Microseconds));
    }

    [Fact]
    public void A_configuration_with_a_spoilt_CRC_is_never_used()
    {
        using var stand = new Stand(Programs.Firmware);
        var configuration = new BoardConfiguration();
        var host = new LineHost(stand, configuration);
        host.Run(200);
        byte[] line = BoardLine.Compose("load", 1, ["1", .. configuration.Text.Split(' ')]);
        line[20] ^= 1;
        stand.Board.Send(line);
        host.Run(100);
        Assert.DoesNotContain(host.Heard, heard => heard.Word == "loaded");
        Assert.Equal(0, host.Status!.Digest);
        AssertNothingCameOut(stand);
    }

    [Trait("Requirement", "SAF-030")]
    [Theory]
    [InlineData(ResetCause.ResetPin)]
    [InlineData(ResetCause.BrownOut)]
    [InlineData(ResetCause.PowerOn)]
    public void A_reset_while_spinning_forgets_everything_and_puts_out_nothing(ResetCause cause)
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        trial.Stand.Board.Reset(cause);
        trial.Host.Run(1);
        trial.Stand.Pins.Clear();
        trial.Host.Run(300);
        Assert.Equal(0, trial.Host.Status!.Digest);
        AssertNothingCameOut(trial.Stand);
    }

    [Fact]
    public void A_board_reset_by_its_watchdog_says_so_and_waits_to_be_loaded()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        trial.Host.Heard.Clear();
        trial.Stand.Board.Hang();
        trial.Host.Run(300);
        BoardLine hello = Assert.Single(trial.Host.Heard, line => line.Word == "hello");
        Assert.Equal(["watchdog", "good", "good", "0000"], hello.Fields[4..]);
        Assert.Equal("bare", trial.Host.Status!.Mode);
    }

    private static void AssertNothingCameOut(Stand stand)
    {
        Assert.Empty(stand.Pins.Pulses);
        Assert.Empty(stand.Pins.PowerRises);
        Assert.False(stand.Board.Output(BoardPin.ServoPulse));
        Assert.False(stand.Board.Output(BoardPin.LockRelease));
    }
}

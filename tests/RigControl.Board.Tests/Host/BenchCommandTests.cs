using RigControl.Board.Simulator.Bench;
using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Host;
using RigControl.Physics;

namespace RigControl.Board.Tests.Host;

/// <summary>The commands that a test types to the program.</summary>
public sealed class BenchCommandTests
{
    [Fact]
    public void The_lid_opens_and_closes_on_command()
    {
        using BoardOnBench rig = Rig();
        Assert.Equal("ok: lid open", BenchCommands.Obey(rig, "  lid   open "));
        Assert.False(rig.Bench.Truth.LidClosed);
        BenchCommands.Obey(rig, "lid closed");
        Assert.True(rig.Bench.Truth.LidClosed);
    }

    [Fact]
    public void The_stick_is_pushed_slowly_by_a_hand_that_comes_to_it_a_moment_later_and_springs_back_at_once()
    {
        using BoardOnBench rig = Rig();
        BenchCommands.Obey(rig, "stick open");
        rig.RunUntil(400 * BoardClock.Millisecond);
        Assert.Equal(1000, rig.ReceiverMicroseconds);
        rig.RunUntil(1000 * BoardClock.Millisecond);
        Assert.InRange(rig.ReceiverMicroseconds, 1045, 1055);
        rig.RunUntil(2000 * BoardClock.Millisecond);
        Assert.Equal(1100, rig.ReceiverMicroseconds);
        BenchCommands.Obey(rig, "stick stop");
        rig.RunUntil(2100 * BoardClock.Millisecond);
        Assert.Equal(1000, rig.ReceiverMicroseconds);
    }

    [Fact]
    public void A_hang_on_command_ends_in_a_watchdog_reset()
    {
        using BoardOnBench rig = Rig();
        rig.RunUntil(200 * BoardClock.Millisecond);
        BenchCommands.Obey(rig, "hang");
        rig.RunUntil(300 * BoardClock.Millisecond);
        Assert.Contains("watchdog resets 1,", BenchCommands.Obey(rig, "status"));
    }

    [Fact]
    public void An_unknown_command_is_answered_with_those_that_are_known()
    {
        using BoardOnBench rig = Rig();
        string answer = BenchCommands.Obey(rig, "lid ajar");
        Assert.StartsWith("unknown: lid ajar; known are: status,", answer);
        Assert.Contains("lid open", answer);
    }

    private static BoardOnBench Rig() => new(Programs.Firmware, new BenchParameters(), 1);
}

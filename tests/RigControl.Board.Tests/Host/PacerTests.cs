using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Host;

namespace RigControl.Board.Tests.Host;

/// <summary>Board time and wall time.</summary>
public sealed class PacerTests
{
    [Fact]
    public void The_board_runs_as_far_as_the_wall_clock_has_gone()
    {
        var pacer = new Pacer();
        ulong cycle = 0;
        for (int n = 1; n <= 1000; n++)
            Assert.Equal(BoardClock.Cycles(n * 0.001), cycle = pacer.Target(n * 0.001, cycle));
        Assert.Equal(0, pacer.Stalls);
    }

    [Fact]
    public void After_a_stall_the_board_goes_on_from_where_it_was_and_never_sprints()
    {
        var pacer = new Pacer();
        ulong cycle = pacer.Target(0.01, 0);
        Assert.Equal(cycle, pacer.Target(5, cycle));
        Assert.Equal(1, pacer.Stalls);
        Assert.Equal(cycle + BoardClock.Millisecond, pacer.Target(5.001, cycle));
    }
}

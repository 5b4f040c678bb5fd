using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Tests.Bench;

/// <summary>The pump holds the coil only while somebody works it.</summary>
public sealed class ChargePumpTests
{
    [Fact]
    public void A_steady_square_wave_of_1_kHz_holds_the_coil()
    {
        ChargePump pump = Pumped(edges: 50, milliseconds: 1);
        Assert.True(pump.Holding);
    }

    [Fact]
    public void A_single_edge_does_not_pick_the_coil_up() => Assert.False(Pumped(edges: 1, milliseconds: 1).Holding);

    [Fact]
    public void A_wave_that_is_too_slow_does_not_hold_the_coil() => Assert.False(Pumped(edges: 50, milliseconds: 10).Holding);

    [Fact]
    public void The_coil_is_let_go_less_than_20_ms_after_the_last_edge()
    {
        ChargePump pump = Pumped(edges: 500, milliseconds: 0.1);
        ulong last = 500 * BoardClock.Cycles(0.0001);
        pump.Settle(last + BoardClock.Cycles(0.02));
        Assert.False(pump.Holding);
        Assert.InRange(BoardClock.Seconds(pump.ReleasedAt - last), 0.001, ChargePump.LongestHold);
        Assert.InRange(ChargePump.LongestHold, 0, 0.02);
    }

    [Fact]
    public void It_does_not_matter_in_how_many_steps_time_passes()
    {
        ChargePump coarse = Pumped(50, 1), fine = Pumped(50, 1);
        ulong last = 50 * BoardClock.Millisecond;
        coarse.Settle(last + BoardClock.Cycles(0.02));
        for (ulong n = 1; n <= 200; n++)
            fine.Settle(last + n * BoardClock.Cycles(0.0001));
        Assert.InRange((long)coarse.ReleasedAt - (long)fine.ReleasedAt, -1, 1);
    }

    private static ChargePump Pumped(int edges, double milliseconds)
    {
        var pump = new ChargePump();
        for (int n = 1; n <= edges; n++)
            pump.Rise((ulong)n * BoardClock.Cycles(milliseconds / 1000));
        return pump;
    }
}

using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Tests.Simulator;

/// <summary>The simulated timer keeps what the chip's datasheet promises about pulses.</summary>
public sealed class ServoPulseTests
{
    [Fact]
    public void A_pulse_lasts_as_long_as_its_register_says_to_the_half_microsecond()
    {
        using SimulatedBoard board = Programs.Toy();
        PinLog log = Logged(board, 100);
        Assert.InRange(log.Pulses.Count, 4, 5);
        Assert.All(log.Pulses, pulse => Assert.Equal(1000, pulse.Microseconds));
        Assert.All(log.Pulses.Zip(log.Pulses.Skip(1)), pair => Assert.Equal(320_000UL, pair.Second.Rise - pair.First.Rise));
    }

    [Fact]
    public void A_width_written_at_any_moment_of_the_frame_never_cuts_or_stretches_the_running_pulse()
    {
        using SimulatedBoard board = Programs.Toy();
        var log = new PinLog();
        board.Run(25);
        for (int step = 0; step < 120; step++)
        {
            board.Ask('w', (ushort)(step % 2 == 0 ? 3999 : 1999));
            board.Run(17.7 + step * 0.011);
        }

        log.Fetch(board);
        Assert.True(log.Pulses.Count > 100);
        Assert.All(log.Pulses, pulse => Assert.Contains(pulse.Microseconds, new double[] { 1000, 2000 }));
        Assert.Contains(log.Pulses, pulse => pulse.Microseconds == 2000);
        Assert.Equal(0u, board.EdgesLost);
    }

    [Fact]
    public void A_new_width_comes_out_in_the_very_next_frame()
    {
        using SimulatedBoard board = Programs.Toy();
        PinLog log = Logged(board, 45);
        board.Ask('w', 2499);
        board.Run(20);
        log.Fetch(board);
        Assert.Equal(1250, log.Pulses[^1].Microseconds);
        Assert.Equal(1000, log.Pulses[^2].Microseconds);
    }

    [Fact]
    public void Toggling_one_pin_leaves_the_servo_pulse_and_the_other_pins_alone()
    {
        using SimulatedBoard board = Programs.Toy();
        PinLog log = Logged(board, 45);
        Assert.True(log.PowerRises.Count > 100);
        Assert.True(board.Output(BoardPin.Marker));
        board.Ask('t');
        Assert.True(board.Output(BoardPin.LockRelease));
        Assert.True(board.Output(BoardPin.Marker));
        board.Ask('t');
        Assert.False(board.Output(BoardPin.LockRelease));
    }

    [Fact]
    public void A_program_that_watches_its_pulse_pin_sees_it_fall_when_it_falls()
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(30);
        for (int n = 0; n < 20; n++)
        {
            board.Run(17.3);
            Assert.InRange(BitConverter.ToUInt16(board.Ask('f')), 2000, 2060);
        }
    }

    private static PinLog Logged(SimulatedBoard board, double milliseconds)
    {
        var log = new PinLog();
        board.Run(milliseconds);
        log.Fetch(board);
        return log;
    }
}

using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Tests.Simulator;

/// <summary>Resets, hangs and the watchdog.</summary>
public sealed class ResetTests
{
    private const int PowerOnFlag = 1, ResetPinFlag = 2, BrownOutFlag = 4, WatchdogFlag = 8;

    [Fact]
    public void A_board_that_is_left_alone_is_never_reset()
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(1000);
        Assert.Equal(0u, board.WatchdogResets);
        Assert.Equal(PowerOnFlag, board.Ask('m')[0]);
    }

    [Theory]
    [InlineData(ResetCause.PowerOn, PowerOnFlag)]
    [InlineData(ResetCause.ResetPin, ResetPinFlag)]
    [InlineData(ResetCause.BrownOut, BrownOutFlag)]
    public void A_reset_tells_the_program_its_cause(ResetCause cause, int flag)
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(10);
        board.Reset(cause);
        board.Run(10);
        Assert.Equal(flag, board.Ask('m')[0]);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_hanging_program_is_reset_by_the_watchdog_and_comes_back_whole(bool interruptsOn)
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(10);
        board.Hang(interruptsOn);
        board.Run(60);
        Assert.Equal(0u, board.WatchdogResets);
        board.Run(10);
        Assert.Equal(1u, board.WatchdogResets);
        Assert.Equal(WatchdogFlag, board.Ask('m')[0]);
        board.Run(500);
        Assert.Equal(1u, board.WatchdogResets);
    }

    [Fact]
    public void The_pulse_pin_falls_at_once_when_the_processor_is_reset()
    {
        using SimulatedBoard board = Programs.Toy();
        var log = new PinLog();
        board.Run(40.5);
        Assert.True(board.Output(BoardPin.ServoPulse));
        board.Reset(ResetCause.ResetPin);
        Assert.False(board.Output(BoardPin.ServoPulse));
        log.Fetch(board);
        Assert.InRange(log.Pulses[^1].Microseconds, 300, 700);
    }

    [Fact]
    public void Marks_go_on_after_a_reset()
    {
        using SimulatedBoard board = Programs.Toy();
        board.SetTachometerPeriod(32_000);
        board.Run(10);
        board.Reset(ResetCause.ResetPin);
        board.Run(30);
        Assert.InRange(BitConverter.ToUInt32(board.Ask('p')), 3999u, 4001u);
    }

    [Fact]
    public void A_file_that_is_no_program_is_refused_in_a_sentence()
    {
        Programs.Toy().Dispose();
        var refusal = Assert.Throws<BoardException>(() => new SimulatedBoard("/nowhere/none.elf"));
        Assert.Contains("/nowhere/none.elf is not a readable AVR program", refusal.Message);
    }
}

using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Tests.Simulator;

/// <summary>Levels, voltages and marks reach the program as they would reach the chip.</summary>
public sealed class InputTests
{
    [Fact]
    public void Each_analogue_input_is_read_as_its_own_and_not_as_its_neighbour()
    {
        using SimulatedBoard board = Programs.Toy();
        double[] millivolts = [500, 2500, 3300, 4900];
        for (int n = 0; n < millivolts.Length; n++)
            board.SetMillivolts((AnalogueInput)n, millivolts[n]);
        board.Run(5);
        byte[] answer = board.Ask('a');
        for (int n = 0; n < millivolts.Length; n++)
            Assert.Equal((int)(millivolts[n] * 1024 / 5000), BitConverter.ToUInt16(answer, 2 * n));
    }

    [Fact]
    public void A_broken_wire_reads_high_and_stays_high_while_other_pins_are_written()
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(5);
        Assert.Equal(0xFC, board.Ask('i')[0] & 0xFC);
    }

    [Fact]
    public void A_contact_that_closes_reads_low_and_stays_low_through_a_reset()
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(5);
        board.SetInput(BoardPin.StopCircuit, false);
        Assert.Equal(0xDC, board.Ask('i')[0] & 0xFC);
        board.Reset(ResetCause.ResetPin);
        board.Run(5);
        Assert.Equal(0xDC, board.Ask('i')[0] & 0xFC);
    }

    [Theory]
    [InlineData(8_000)]
    [InlineData(32_768)]
    [InlineData(319_999.5)]
    [InlineData(320_000)]
    [InlineData(1_000_003)]
    public void Marks_are_timed_to_the_count_of_the_timer(double period)
    {
        double share = period % 8 == 0 ? 0 : 1;
        using SimulatedBoard board = Programs.Toy();
        board.SetTachometerPeriod(period);
        board.Run(3 * period / BoardClock.Millisecond + 5);
        for (int n = 0; n < 50; n++)
        {
            board.Run(1.37 * period / BoardClock.Millisecond);
            Assert.InRange(BitConverter.ToUInt32(board.Ask('p')), period / 8 - share, period / 8 + share);
        }
    }

    [Fact]
    public void Clearing_one_flag_of_a_timer_keeps_the_others()
    {
        using SimulatedBoard board = Programs.Toy();
        board.SetTachometerPeriod(16_000);
        board.Run(50);
        Assert.Equal([1], board.Ask('x'));
    }

    [Fact]
    public void A_change_of_speed_keeps_the_part_of_the_turn_already_made()
    {
        using SimulatedBoard board = Programs.Toy();
        var log = new PinLog();
        board.SetTachometerPeriod(160_000);
        board.RunUntil(board.Cycle + 160_000 + 80_000);
        ulong changed = board.Cycle;
        board.SetTachometerPeriod(16_000);
        board.Run(3);
        log.Fetch(board);
        Assert.InRange(log.Marks[1] - changed, 7_990UL, 8_010UL);
        Assert.InRange(log.Marks[2] - log.Marks[1], 15_999UL, 16_001UL);
    }
}

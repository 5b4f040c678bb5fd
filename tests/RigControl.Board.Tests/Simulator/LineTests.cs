using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Tests.Simulator;

/// <summary>Bytes take their time on the line, both ways.</summary>
public sealed class LineTests
{
    private const ulong ByteCycles = 320;

    [Fact]
    public void A_byte_reaches_the_board_only_after_its_twenty_microseconds()
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(5);
        board.Send([(byte)'m', 0, 0]);
        board.RunUntil(board.Cycle + 3 * ByteCycles - 16);
        Assert.Equal(0, board.Receive(new byte[8]));
        board.RunUntil(board.Cycle + 2 * ByteCycles);
        Assert.Equal(1, board.Receive(new byte[8]));
    }

    [Fact]
    public void Eight_bytes_of_the_board_take_eight_byte_times()
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(5);
        board.Send([(byte)'a', 0, 0]);
        ulong asked = board.Cycle + 3 * ByteCycles;
        int received = 0;
        while (received < 8 && board.Cycle < asked + 100 * ByteCycles)
        {
            board.RunUntil(board.Cycle + 16);
            received += board.Receive(new byte[8]);
        }

        Assert.Equal(8, received);
        Assert.InRange(board.Cycle - asked, 8 * ByteCycles, 9 * ByteCycles + 200);
    }

    [Fact]
    public void Bytes_that_the_program_does_not_fetch_in_time_are_lost_and_counted()
    {
        using SimulatedBoard board = Programs.Toy();
        board.Run(5);
        board.Hang(interruptsOn: false);
        board.Send(new byte[10]);
        board.Run(1);
        Assert.Equal(7u, board.BytesLost);
    }
}

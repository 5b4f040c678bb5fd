using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Tests.Simulator;

/// <summary>Talks to the toy program: three bytes out, some bytes back.</summary>
internal static class ToyTalk
{
    /// <summary>Runs for a number of milliseconds.</summary>
    public static void Run(this SimulatedBoard board, double milliseconds) =>
        board.RunUntil(board.Cycle + BoardClock.Cycles(milliseconds / 1000));

    /// <summary>Sends a command and returns what comes back within 2 ms.</summary>
    public static byte[] Ask(this SimulatedBoard board, char command, ushort argument = 0)
    {
        board.Send([(byte)command, (byte)argument, (byte)(argument >> 8)]);
        board.Run(2);
        var room = new byte[64];
        return room[..board.Receive(room)];
    }
}

using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Simulator.Host;

/// <summary>
/// Keeps the board's time with the wall clock's. After a stall it starts afresh from where the board is: catching up in a sprint
/// would show the board a host that is silent.
/// </summary>
public sealed class Pacer
{
    /// <summary>Time behind the wall clock from which it starts afresh, s.</summary>
    public const double Stall = 0.05;

    private double wallStart;
    private ulong boardStart;

    /// <summary>How often it started afresh.</summary>
    public int Stalls { get; private set; }

    /// <summary>The cycle that the board may run to now.</summary>
    /// <param name="wall">Wall clock, s from any beginning, never falling.</param>
    /// <param name="cycle">Where the board is.</param>
    public ulong Target(double wall, ulong cycle)
    {
        double due = BoardClock.Seconds(boardStart) + wall - wallStart;
        double behind = due - BoardClock.Seconds(cycle);
        if (behind <= Stall)
            return BoardClock.Cycles(due);
        Stalls++;
        (wallStart, boardStart) = (wall, cycle);
        return cycle;
    }
}

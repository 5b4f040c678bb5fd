namespace RigControl.Board.Simulator.Board;

/// <summary>A board with something around it; time moves for both together.</summary>
public interface IBoardRig
{
    /// <summary>The board. Its time is moved through <see cref="RunUntil"/> only.</summary>
    SimulatedBoard Board { get; }

    /// <summary>Runs board and surroundings to <paramref name="cycle"/>.</summary>
    void RunUntil(ulong cycle);
}

namespace RigControl.Board.Simulator.Board;

/// <summary>A complete servo pulse as the pin showed it.</summary>
/// <param name="Rise">Cycle of the rising edge.</param>
/// <param name="Fall">Cycle of the falling edge: only here does a speed controller know the pulse.</param>
public readonly record struct Pulse(ulong Rise, ulong Fall)
{
    /// <summary>Width, µs, to a sixteenth.</summary>
    public double Microseconds => (double)(Fall - Rise) / BoardClock.Microsecond;
}

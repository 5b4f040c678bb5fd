namespace RigControl.Board.Simulator.Board;

/// <summary>Turns processor cycles into time and back.</summary>
public static class BoardClock
{
    /// <summary>Cycles a second.</summary>
    public const ulong Frequency = 16_000_000;

    /// <summary>Cycles a millisecond.</summary>
    public const ulong Millisecond = Frequency / 1000;

    /// <summary>Cycles a microsecond.</summary>
    public const ulong Microsecond = Frequency / 1_000_000;

    /// <summary>Cycles in <paramref name="seconds"/>, rounded to the nearest.</summary>
    public static ulong Cycles(double seconds) => (ulong)Math.Round(seconds * Frequency);

    /// <summary>Seconds in a number of cycles.</summary>
    public static double Seconds(ulong cycles) => (double)cycles / Frequency;

    /// <summary>Milliseconds in a number of cycles.</summary>
    public static double Milliseconds(ulong cycles) => (double)cycles / Millisecond;
}

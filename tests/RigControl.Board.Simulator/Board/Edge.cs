using System.Runtime.InteropServices;

namespace RigControl.Board.Simulator.Board;

/// <summary>A change of an output pin.</summary>
[StructLayout(LayoutKind.Sequential, Size = 16)]
public readonly record struct Edge
{
    /// <summary>Processor cycle of the change (16 a microsecond).</summary>
    public readonly ulong Cycle;

    /// <summary>The pin that changed.</summary>
    public readonly BoardPin Pin;

    private readonly byte level;

    /// <summary>Describes a change of <paramref name="pin"/> at <paramref name="cycle"/>.</summary>
    public Edge(ulong cycle, BoardPin pin, bool rising) => (Cycle, Pin, level) = (cycle, pin, rising ? (byte)1 : (byte)0);

    /// <summary>True for low to high.</summary>
    public bool Rising => level != 0;
}

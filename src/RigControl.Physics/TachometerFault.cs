namespace RigControl.Physics;

/// <summary>How a tachometer fails.</summary>
public enum TachometerFault : byte
{
    None = 0,

    /// <summary>No edges come.</summary>
    Silent = 1,

    /// <summary>Each mark is seen twice.</summary>
    Doubled = 2,

    /// <summary>Every other mark is missed.</summary>
    Halved = 3,
}

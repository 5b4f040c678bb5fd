namespace RigControl.Model.Records;

/// <summary>What moves the rig from state to state.</summary>
public enum Trigger : byte
{
    None = 0,

    /// <summary>A cause was latched, the operator stopped, or a deadline passed.</summary>
    Trip = 1,

    /// <summary>The operator's reset, at standstill, every cause cleared.</summary>
    Reset = 2,

    /// <summary>The operator's arm, or a repeat that needs no new act.</summary>
    Arm = 3,

    /// <summary>The warning is over, or the next level is higher.</summary>
    Rise = 4,

    /// <summary>The level is reached and to be held.</summary>
    Level = 5,

    /// <summary>The output is let go.</summary>
    Release = 6,

    /// <summary>The rotor has come to rest.</summary>
    Rested = 7,
}

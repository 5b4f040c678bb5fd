namespace RigControl.Physics;

/// <summary>How a contact fails.</summary>
public enum ContactFault : byte
{
    None = 0,

    /// <summary>Never conducts: a broken wire.</summary>
    StuckOpen = 1,

    /// <summary>Always conducts: welded or bridged.</summary>
    StuckClosed = 2,
}

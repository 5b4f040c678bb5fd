namespace RigControl.Model.Rig;

/// <summary>What an interlock carries from scan to scan: part of the kernel's state, so that replay sees it too. Starts as zeros.</summary>
public struct InterlockMemory
{
    public double A;
    public double B;
    public TimeSpan Since;

    /// <summary>Free for flags; 0 at start.</summary>
    public long Flags;
}

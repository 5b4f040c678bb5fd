namespace RigControl.Kernel;

/// <summary>What the scan is being used for.</summary>
public enum KernelMode : ushort
{
    /// <summary>An ordinary run.</summary>
    Run = 0,
}

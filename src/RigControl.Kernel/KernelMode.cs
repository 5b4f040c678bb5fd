namespace RigControl.Kernel;

/// <summary>What the scan is being used for.</summary>
public enum KernelMode : ushort
{
    /// <summary>An ordinary run.</summary>
    Run = 0,

    /// <summary>The failsafe is provoked. A ceiling of throttle and speed stands in for the failsafe proof, which does not count.</summary>
    Verification = 1,
}

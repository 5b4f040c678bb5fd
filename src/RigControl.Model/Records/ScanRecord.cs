using RigControl.Model.Rig;

namespace RigControl.Model.Records;

/// <summary>
/// All that the kernel says about one scan. Together with the samples up to the watermarks and the commands behind the
/// receipts it is enough to run the scan again.
/// </summary>
public struct ScanRecord
{
    /// <summary>Number of the scan, from 1.</summary>
    public long Scan;

    /// <summary>Time of the scan, since the session's clock started.</summary>
    public TimeSpan Now;

    /// <summary>Hash of the kernel's state after the scan.</summary>
    public ulong StateHash;

    public OutputImage Outputs;

    /// <summary>Step of the procedure after the scan.</summary>
    public int Step;

    /// <summary>Repeat after the scan, from 1; 0 before the first.</summary>
    public int Repeat;

    /// <summary>Interlocks whose latch is set, one bit each.</summary>
    public uint Latched;

    /// <summary>Interlocks latched by this very scan, one bit each.</summary>
    public uint NewlyLatched;

    /// <summary>The kernel's own causes that are latched.</summary>
    public TripCause Causes;

    /// <summary>The kernel's own causes latched by this very scan.</summary>
    public TripCause NewCauses;

    public RigState Before;

    public RigState State;

    public ArmingPhase Phase;

    public Trigger Fired;

    /// <summary>Whether the whole procedure has been done.</summary>
    public bool Finished;

    /// <summary>Whether the rotor is proven to stand still.</summary>
    public bool AtStandstill;

    /// <summary>Whether only somebody's look at the rotor is missing for that proof.</summary>
    public bool AwaitsLook;

    /// <summary>How many of <see cref="Receipts"/> are set.</summary>
    public byte ReceiptCount;

    /// <summary>How many of <see cref="Demands"/> are set.</summary>
    public byte InterlockCount;

    public Receipts Receipts;

    public Watermarks Watermarks;

    public Demands Demands;
}

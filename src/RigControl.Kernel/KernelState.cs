using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>
/// Everything that the kernel carries from scan to scan: a value of fixed size, to be copied, compared and hashed.
/// Its zero value is the state at start-up: safe-stop, nothing latched, nothing started. No padding between the fields.
/// </summary>
public struct KernelState
{
    public long Scan;
    public TimeSpan Now;
    public TimeSpan StateSince;
    public TimeSpan StepSince;
    public TimeSpan PhaseSince;

    /// <summary>Since when the speed has been below standstill without a break; valid with <see cref="StateFlags.Slow"/>.</summary>
    public TimeSpan SlowSince;

    /// <summary>Last scan in which output or power was energised.</summary>
    public TimeSpan LastEnergised;

    /// <summary>Last scan in which something was energised, or in which the power was not read as gone.</summary>
    public TimeSpan PowerSeen;

    /// <summary>When the marker light goes out.</summary>
    public TimeSpan MarkUntil;

    /// <summary>Throttle that the last scan put out, as a share.</summary>
    public double Throttle;

    /// <summary>Throttle at the entry of the step, where its ramp begins.</summary>
    public double RampFrom;

    /// <summary>The same two of the second output.</summary>
    public double SecondThrottle;

    public double SecondRampFrom;

    /// <summary>The last speed that was read of a rotor that turned, rpm without sign; 0 once it is proven to stand.</summary>
    public double TurningAt;

    /// <summary>The kernel's own latched causes.</summary>
    public TripCause Causes;

    public StateFlags Flags;

    /// <summary>Step of the procedure.</summary>
    public int Step;

    /// <summary>Repeat from 1; 0 before the reset, or before the arm where that is the first step.</summary>
    public int Repeat;

    /// <summary>Scans in a row that came more than one and a half periods after the one before.</summary>
    public int LateScans;

    public RigState State;
    public ArmingPhase Phase;
    public KernelMode Mode;

    public ConditionSlots Conditions;

    // Last, so that the hash can leave out the slots that a rig does not use.
    public InterlockSlots Interlocks;

    internal readonly bool Has(StateFlags flag) => (Flags & flag) != 0;

    internal void Set(StateFlags flag, bool on) => Flags = on ? Flags | flag : Flags & ~flag;
}

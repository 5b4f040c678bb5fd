using System.Runtime.CompilerServices;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>What the kernel remembers of one interlock.</summary>
public struct InterlockSlot
{
    /// <summary>Its demand of this scan.</summary>
    public Demand Current;

    /// <summary>The demand that was latched; meaningful while <see cref="IsLatched"/>.</summary>
    public Demand Latched;

    public InterlockMemory Memory;

    // A whole word, so that the slot has no padding.
    private long _latched;

    public bool IsLatched
    {
        readonly get => _latched != 0;
        set => _latched = value ? 1 : 0;
    }
}

/// <summary>One slot per interlock of the rig.</summary>
[InlineArray(Capacity.Interlocks)]
public struct InterlockSlots
{
    private InterlockSlot _first;
}

/// <summary>How far one condition of the current step has come.</summary>
public struct ConditionSlot
{
    /// <summary>Since when it has held; valid while <see cref="Holds"/>.</summary>
    public TimeSpan Since;

    /// <summary>Lowest value of the band being watched.</summary>
    public double Minimum;

    /// <summary>Highest value of the band being watched.</summary>
    public double Maximum;

    private long _holds;

    public bool Holds
    {
        readonly get => _holds != 0;
        set => _holds = value ? 1 : 0;
    }
}

/// <summary>One slot per condition of the current step.</summary>
[InlineArray(Capacity.Conditions)]
public struct ConditionSlots
{
    private ConditionSlot _first;
}

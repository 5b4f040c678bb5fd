using System.Runtime.CompilerServices;
using RigControl.Model.Rig;

namespace RigControl.Model.Records;

/// <summary>One demand per interlock, at the interlock's place in the rig.</summary>
[InlineArray(Capacity.Interlocks)]
public struct Demands
{
    private Demand _first;
}

/// <summary>Receipts of the commands taken in one scan.</summary>
[InlineArray(Capacity.Commands)]
public struct Receipts
{
    private Receipt _first;
}

/// <summary>Per device, the number of samples folded up to and including a scan.</summary>
[InlineArray(Capacity.Devices)]
public struct Watermarks
{
    private long _first;
}

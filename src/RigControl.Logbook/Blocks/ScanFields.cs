namespace RigControl.Logbook.Blocks;

/// <summary>
/// The parts of a scan record that a block spells out for one scan; whatever is not named follows from the scan before.
/// What changes often comes first, so that most scans need one byte here.
/// </summary>
[Flags]
internal enum ScanFields : uint
{
    None = 0,

    /// <summary>State hash, when it differs from the scan before.</summary>
    Hash = 1,

    /// <summary>Time, when it is not the scan before plus the step seen last.</summary>
    Clock = 2,

    /// <summary>Watermarks, when any is not the scan before plus its own step seen last.</summary>
    Watermarks = 4,

    /// <summary>Demands whose action or reason differs, in full.</summary>
    Demands = 8,

    /// <summary>Throttle, pulse and switches.</summary>
    Outputs = 16,

    /// <summary>States, trigger, step, repeat, phase, finished, at standstill.</summary>
    Sequence = 32,

    /// <summary>Receipts; without this bit there is none.</summary>
    Receipts = 64,

    /// <summary>Latches and causes.</summary>
    Latches = 128,

    /// <summary>Scan number, when it is not the scan before plus one.</summary>
    Number = 256,

    /// <summary>The second output, where it changed; rigs with one output never have it.</summary>
    Second = 512,

    All = 1023,
}

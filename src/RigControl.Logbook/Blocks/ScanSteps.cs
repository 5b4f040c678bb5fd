using RigControl.Model.Records;

namespace RigControl.Logbook.Blocks;

/// <summary>By how much clock and watermarks rose when they were last spelled out: what the next scan is expected to add.</summary>
internal struct ScanSteps
{
    /// <summary>Ticks of 100 ns.</summary>
    public long Clock;

    /// <summary>Samples, per device.</summary>
    public Watermarks Watermarks;
}

using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Campaigns;

/// <summary>What a checker sees of one scan: what is really so, and what the kernel said.</summary>
internal readonly ref struct Observation(Scenario scenario, in BenchTruth truth, in ScanRecord record, double time, bool firstOfSession)
{
    private readonly ref readonly BenchTruth _truth = ref truth;
    private readonly ref readonly ScanRecord _record = ref record;

    public Scenario Scenario { get; } = scenario;

    /// <summary>Bench truth at the beginning of the scan: what the outputs of the scan before have led to.</summary>
    public ref readonly BenchTruth Truth => ref _truth;

    public ref readonly ScanRecord Record => ref _record;

    /// <summary>Host time, s.</summary>
    public double Time { get; } = time;

    /// <summary>Whether the host has just started.</summary>
    public bool FirstOfSession { get; } = firstOfSession;
}

using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Campaigns;

/// <summary>What a checker sees once a period: what is really so, what the kernel said last, and what the people and the host did.</summary>
internal readonly ref struct Observation(Scenario scenario, in BenchTruth truth, in ScanRecord record, Moment moment)
{
    private readonly ref readonly BenchTruth _truth = ref truth;
    private readonly ref readonly ScanRecord _record = ref record;

    public Scenario Scenario { get; } = scenario;

    /// <summary>Bench truth at the beginning of the scan: what the outputs of the scan before have led to.</summary>
    public ref readonly BenchTruth Truth => ref _truth;

    /// <summary>The latest record; while no host runs, one that says nothing.</summary>
    public ref readonly ScanRecord Record => ref _record;

    /// <summary>True time, s; the host's own clock may say something else.</summary>
    public double Time => moment.Time;

    /// <summary>Whether the host has just started.</summary>
    public bool FirstOfSession => moment.FirstOfSession;

    /// <summary>Whether a stop had been given before this scan, by whomever.</summary>
    public bool StopGiven => moment.StopGiven;

    /// <summary>Scans for which the record has not been kept.</summary>
    public int UnrecordedScans => moment.UnrecordedScans;

    /// <summary>Whether what was seen to work is what is there now, by plain comparison.</summary>
    public bool Proven => moment.Proven;

    /// <summary>How long nobody has been at the bench, s.</summary>
    public double AbandonedFor => moment.AbandonedFor;
}

/// <summary>What belongs to one moment besides truth and record; see <see cref="Observation"/>.</summary>
internal readonly record struct Moment(double Time, bool FirstOfSession = false, bool StopGiven = false, int UnrecordedScans = 0, double AbandonedFor = 0, bool Proven = true);

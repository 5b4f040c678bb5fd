namespace RigControl.Kernel.Tests.Exploration;

/// <summary>One scan, seen from outside: the state before, what entered, and what the kernel said.</summary>
internal readonly ref struct Seen(World world, in Node before, Move move, in ScanRecord record, Wire wire)
{
    private readonly ref readonly Node _before = ref before;
    private readonly ref readonly ScanRecord _record = ref record;

    public Configuration Configuration => World.Configuration;

    public World World { get; } = world;

    public ref readonly KernelState Before => ref _before.Kernel;

    /// <summary>The board's end before the scan.</summary>
    public ref readonly Wire WireBefore => ref _before.Wire;

    /// <summary>The board's end after it.</summary>
    public Wire Wire { get; } = wire;

    public Move Move { get; } = move;

    public ref readonly ScanRecord Record => ref _record;

    public OutputImage Out => _record.Outputs;

    public bool Drives => Out.Drives || (Out.Pulse != Configuration.StopPulse && Out.Pulse != 0);

    public bool Verifies => Configuration.Ceiling is not null;

    /// <summary>What the verification is about just now, whose objection alone may stand while pulses are live without power.</summary>
    public bool IsExpectedPulse => Verifies && !Out.Power && Configuration.StepAt(_record.Step).Provocation is not null;
}

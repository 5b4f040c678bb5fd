using RigControl.Runtime.Failsafe;

namespace RigControl.Runtime.Tests.Support;

/// <summary>A verification played to its end in lock-step.</summary>
internal sealed class Verified : IDisposable
{
    private readonly AssembledRig _rig;

    private Verified(AssembledRig rig, VerificationWatch watch, MemoryRecorder record, RunResult result, IReadOnlyList<RigEvent> events) =>
        (_rig, Watch, Record, Result, Events) = (rig, watch, record, result, events);

    public MemoryRecorder Record { get; }

    public VerificationWatch Watch { get; }

    public RunResult Result { get; }

    public IReadOnlyList<RigEvent> Events { get; }

    public static Verified On(TestRig test)
    {
        AssembledRig rig = test.Assemble(confirm: false);
        VerificationWatch watch = new(rig.Configuration);
        MemoryRecorder record = new();
        List<RigEvent> events = [];
        using RunSession session = new(rig, record, new ScriptedVerifier(rig), Pace.Max, [], events.Add, watch);
        return new Verified(rig, watch, record, session.Run(), events);
    }

    public void Dispose() => _rig.Dispose();
}

using RigControl.Runtime.Failsafe;

namespace RigControl.Runtime.Tests.Support;

/// <summary>A verification played to its end in lock-step.</summary>
internal sealed class Verified : IDisposable
{
    private readonly AssembledRig _rig;

    private Verified(AssembledRig rig, VerificationWatch watch, RunResult result, IReadOnlyList<RigEvent> events) =>
        (_rig, Watch, Result, Events) = (rig, watch, result, events);

    public VerificationWatch Watch { get; }

    public RunResult Result { get; }

    public IReadOnlyList<RigEvent> Events { get; }

    public static Verified On(TestRig test)
    {
        AssembledRig rig = test.Assemble(confirm: false);
        VerificationWatch watch = new(rig.Configuration);
        List<RigEvent> events = [];
        using RunSession session = new(rig, new MemoryRecorder(), new ScriptedVerifier(rig), Pace.Max, [], events.Add, watch);
        return new Verified(rig, watch, session.Run(), events);
    }

    public void Dispose() => _rig.Dispose();
}

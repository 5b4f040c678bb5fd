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

    public static Verified On(TestRig test, TimeSpan? thought = null)
    {
        AssembledRig rig = test.Assemble(confirm: false);
        VerificationWatch watch = new(rig.Configuration, rig.Documents.Rig);
        MemoryRecorder record = new();
        List<RigEvent> events = [];
        using RunSession session = new(rig, record, new ScriptedVerifier(rig, thought), Pace.Max, [], events.Add, watch);
        return new Verified(rig, watch, record, session.Run(), events);
    }

    /// <summary>When the first step was entered of whose text this is a part.</summary>
    public TimeSpan Entered(string step) => AllOf(EventNames.StepEntered, step)[0];

    /// <summary>When every event of a kind happened that speaks of this.</summary>
    public TimeSpan[] AllOf(string kind, string text) => [.. Events.Where(e => e.Name == kind && (e.Subject == text || e.Text.Contains(text, StringComparison.Ordinal))).Select(e => e.At)];

    /// <summary>When an interlock or one of the kernel's own causes tripped first.</summary>
    public TimeSpan Tripped(string cause) => Events.First(e => e.Name == EventNames.Trip && e.Subject == cause).At;

    public void Dispose() => _rig.Dispose();
}

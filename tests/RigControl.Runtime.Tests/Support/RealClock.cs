namespace RigControl.Runtime.Tests.Support;

/// <summary>Tests at the wall clock's pace: each alone, since a session that waits for a core behind other tests finds its readings stale and stops, as it should.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class RealClock
{
    public const string Name = "the real clock";
}

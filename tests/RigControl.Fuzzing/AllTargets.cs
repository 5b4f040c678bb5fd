using RigControl.Fuzzing.Targets;

namespace RigControl.Fuzzing;

/// <summary>Everything that takes bytes from outside. The board's side of the line is fuzzed in C: <c>make -C shared/board fuzz</c>.</summary>
public static class AllTargets
{
    public static IReadOnlyList<ITarget> All { get; } = [new DocumentTarget(), new FrameTarget()];
}

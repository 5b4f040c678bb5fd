using System.Globalization;

namespace RigControl.Mutants.Kernel;

/// <summary>How many of the mutants were caught.</summary>
public sealed class Score(IReadOnlyList<Tried> tried)
{
    /// <summary>Those that nothing noticed although something could.</summary>
    public IReadOnlyList<Tried> Missed { get; } = [.. tried.Where(t => !t.Verdict.IsCaught && Equivalent.WhyNot(t.Mutation) is null)];

    /// <summary>Those that nothing can notice.</summary>
    public IReadOnlyList<Tried> Same { get; } = [.. tried.Where(t => !t.Verdict.IsCaught && Equivalent.WhyNot(t.Mutation) is not null)];

    /// <summary>Share caught of all that were tried.</summary>
    public double OfAll => Caught / (double)tried.Count;

    /// <summary>Share caught of those that can be told apart.</summary>
    public double OfDifferent => Caught / (double)(tried.Count - Same.Count);

    private int Caught => tried.Count(t => t.Verdict.IsCaught);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Caught} of {tried.Count} caught: {OfAll:P1}. Without the {Same.Count} that cannot be told apart: {OfDifferent:P1}.");
}

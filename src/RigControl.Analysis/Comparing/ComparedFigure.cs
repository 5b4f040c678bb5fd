namespace RigControl.Analysis.Comparing;

/// <summary>What the comparison of one figure came to.</summary>
public enum Verdict : byte
{
    /// <summary>Too little is known to say anything.</summary>
    Unknown = 0,

    /// <summary>Nothing beyond noise.</summary>
    NoDifference = 1,

    /// <summary>Beyond noise if it were the only figure looked at; among many it may be chance.</summary>
    Perhaps = 2,

    /// <summary>More than noise.</summary>
    Changed = 3,
}

/// <summary>One figure of two groups.</summary>
/// <param name="Name">Of the figure; with its channel where several share a name.</param>
/// <param name="Unit">Of values and differences.</param>
/// <param name="A">First group.</param>
/// <param name="B">Second group.</param>
/// <param name="Adjusted">Chance corrected for all figures looked at.</param>
/// <param name="Detectable">The smallest difference that this comparison would have shown, in <paramref name="Unit"/>; not a number where unknown.</param>
public sealed record ComparedFigure(string Name, string Unit, ValueGroup A, ValueGroup B, Difference Difference, double Adjusted, double Detectable)
{
    /// <summary>Chance of a false alarm that a verdict accepts.</summary>
    public const double Level = 0.05;

    public Verdict Verdict => double.IsNaN(Adjusted) ? Verdict.Unknown
        : Adjusted < Level ? Verdict.Changed
        : Difference.Chance < Level ? Verdict.Perhaps
        : Verdict.NoDifference;
}

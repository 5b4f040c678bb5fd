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
/// <param name="Among">How many figures were looked at, this one included.</param>
public sealed record ComparedFigure(string Name, string Unit, ValueGroup A, ValueGroup B, Difference Difference, double Adjusted, int Among)
{
    /// <summary>Chance of a false alarm that a verdict accepts.</summary>
    public const double Level = 0.05;

    /// <summary>The smallest difference that this comparison would have shown, in <see cref="Unit"/>; not a number where unknown.</summary>
    public double Detectable => double.IsNaN(Difference.StandardError) ? double.NaN
        : Difference.StandardError == 0 ? 0
        // The first step of the correction asks most; what passes that is surely seen.
        : TestPower.Detectable(Difference.Freedom, Level / Math.Max(1, Among)) * Difference.StandardError;

    public Verdict Verdict => double.IsNaN(Adjusted) ? Verdict.Unknown
        : Adjusted < Level ? Verdict.Changed
        : Difference.Chance < Level ? Verdict.Perhaps
        : Verdict.NoDifference;
}

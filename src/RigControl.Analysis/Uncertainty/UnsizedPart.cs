using RigControl.Model.Records;

namespace RigControl.Analysis.Uncertainty;

/// <summary>A line of a budget without a number: something that makes a figure uncertain by an amount that nobody knows.</summary>
public static class UnsizedPart
{
    /// <summary>The line; its size and share are kept as 0 and shown as nothing.</summary>
    public static Contribution Of(string name) => new(name, 0, 0);

    /// <summary>Whether a line has no number.</summary>
    public static bool Is(Contribution line) => line is { Uncertainty: 0, Share: 0 };
}

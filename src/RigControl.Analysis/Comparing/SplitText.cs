using System.Globalization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;

namespace RigControl.Analysis.Comparing;

/// <summary>Why a spin-up takes longer, in sentences.</summary>
public static class SplitText
{
    /// <summary>Each cause with its part of the difference, the largest first, what nothing explains last.</summary>
    public static IReadOnlyList<(string Cause, Measured Part)> Parts(WhySlower why) =>
    [
        .. new (string, Measured)[] { ("supply", why.Supply), ("torque", why.Torque), ("drag", why.Drag), ("inertia", why.Inertia) }.OrderByDescending(p => Math.Abs(p.Item2.Value)),
        ("unexplained", why.Unexplained),
    ];

    /// <summary>How much longer or shorter, to which speed.</summary>
    public static string Difference(SpinUpSplit split)
    {
        Measured difference = Measured.Of(split.Second.Value - split.First.Value, split.First.As("first"), split.Second.As("second"));
        return string.Create(CultureInfo.InvariantCulture,
            $"the spin-up to {split.Speed / Blocks.RpmToRadPerSecond:0} rpm takes {Math.Abs(difference.Value):0.000} ± {Half(difference):0.000} s {(difference.Value >= 0 ? "longer" : "less")}");
    }

    /// <summary>One cause: what it adds or takes away, and whether that is more than is known.</summary>
    public static string Of(string cause, Measured part)
    {
        string size = string.Create(CultureInfo.InvariantCulture, $"{cause} {(part.Value < 0 ? "−" : "+")}{Math.Abs(part.Value):0.000} ± {Half(part):0.000} s");
        return MayBeNothing(part) ? size + " (may be nothing)" : size;
    }

    /// <summary>Whether nothing lies within the part's 95 % interval.</summary>
    public static bool MayBeNothing(Measured part) => part.Interval95.Low <= 0 && part.Interval95.High >= 0;

    /// <summary>What the reader must know of how the split is made.</summary>
    public const string Mind = "inertia as declared: a change of it that no article file tells shows as torque and drag; ± is the 95 % interval";

    private static double Half(Measured m) => (m.Interval95.High - m.Interval95.Low) / 2;
}

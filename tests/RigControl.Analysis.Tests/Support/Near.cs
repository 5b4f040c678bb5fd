namespace RigControl.Analysis.Tests.Support;

/// <summary>Assertions on numbers that say by how much they missed.</summary>
internal static class Near
{
    /// <summary>Equal within a share of the expected value.</summary>
    public static void Relative(double expected, double actual, double share, string what = "value")
    {
        if (!(Math.Abs(actual - expected) <= share * Math.Abs(expected)))
            Assert.Fail($"{what}: expected {expected:R} within {share:E1} of it, got {actual:R}, off by {(actual - expected) / expected:E2}");
    }

    /// <summary>Equal within an absolute tolerance.</summary>
    public static void Absolute(double expected, double actual, double tolerance, string what = "value")
    {
        if (!(Math.Abs(actual - expected) <= tolerance))
            Assert.Fail($"{what}: expected {expected:R} within {tolerance:R}, got {actual:R}");
    }
}

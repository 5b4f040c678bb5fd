using System.Globalization;

namespace RigControl.Analysis.Guarding;

/// <summary>The longest time from the stop output to standstill that is known of an article.</summary>
/// <param name="Declared">What its file says, s.</param>
/// <param name="Measured">The longest that was measured, at the upper end of its 95 % interval, s; null where none was.</param>
/// <param name="Run">Run of that measurement; empty where there is none.</param>
public sealed record StoppingTime(double Declared, double? Measured = null, string Run = "")
{
    /// <summary>s.</summary>
    public double Worst => Measured > Declared ? Measured.Value : Declared;

    /// <summary>Whether a measurement has shown the declaration to be too short.</summary>
    public bool IsUnderstated => Measured > Declared;

    /// <summary>The worst with where it comes from, such as <c>60 s (longest coast-down, as declared)</c>.</summary>
    public string Told => IsUnderstated
        ? string.Create(CultureInfo.InvariantCulture, $"{Worst:0.##} s (measured in run {Run}, and declared as {Declared:0.##} s)")
        : string.Create(CultureInfo.InvariantCulture, $"{Worst:0.##} s (longest coast-down, as declared)");
}

using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>
/// A two-valued channel. It proves a position only by reading exactly that value all the time since the last scan:
/// half a value, or a blink between two scans, proves nothing.
/// </summary>
internal static class Contact
{
    public static bool Reads(in ImageEntry entry, double value) => entry.Minimum == value && entry.Maximum == value;

    /// <summary>The reading that was not <paramref name="value"/>; the value itself where there was none.</summary>
    public static double Other(in ImageEntry entry, double value) => entry.Minimum != value ? entry.Minimum : entry.Maximum;

    /// <summary>When <see cref="Other"/> was read.</summary>
    public static TimeSpan LeftAt(in ImageEntry entry, double value) => entry.Minimum != value ? entry.MinimumAt : entry.MaximumAt;
}

using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>The two extreme readings since the last scan in the order in which they came.</summary>
/// <param name="First">The earlier one.</param>
/// <param name="Then">The later one; the same where there was only one reading.</param>
internal readonly record struct InOrder(Extreme First, Extreme Then)
{
    public static InOrder Of(in ImageEntry entry)
    {
        Extreme lowest = new(entry.Minimum, entry.MinimumAt);
        Extreme highest = new(entry.Maximum, entry.MaximumAt);
        return lowest.At <= highest.At ? new InOrder(lowest, highest) : new InOrder(highest, lowest);
    }
}

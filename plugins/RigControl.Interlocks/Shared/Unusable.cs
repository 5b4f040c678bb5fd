using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>A reading that cannot be used counts as tripped, with its cause as the reason.</summary>
internal static class Unusable
{
    // Reasons from here on are a bad cause plus this; an interlock's own reasons are below.
    private const ushort FirstReason = 100;

    /// <summary>Whether an entry proves nothing: Bad, or its numbers are not finite and in order, whatever its quality says.</summary>
    public static bool Is(in ImageEntry entry) =>
        !(entry.IsUsable && AreFinite(entry) && entry.Minimum <= entry.Last && entry.Last <= entry.Maximum);

    /// <summary>The objection. It counts from the scan: what never came, or is not a number, has no moment at which it was shown.</summary>
    public static Demand Object(DemandAction action, Channel channel, in ImageEntry entry, TimeSpan now) =>
        Demand.Object(action, ReasonOf(entry), channel.Index, entry.Last, 0, 0, now);

    /// <summary>The sentence for such an objection; null for every other demand.</summary>
    public static string? Explain(Channel channel, in Demand demand)
    {
        if (demand.Reason < FirstReason)
            return null;
        string name = Words.Name(channel);
        ChannelDeclaration declared = channel.Declaration;
        return (BadCause)(demand.Reason - FirstReason) switch
        {
            BadCause.Never => $"{name} has never been read; check that its device is connected",
            BadCause.TooOld => $"{name} has had no new reading for longer than {Words.Duration(declared.MaximumAge)}",
            BadCause.Reported => $"the device that reads {name} calls its own reading bad",
            BadCause.NotFinite => $"{name} reads as no number",
            BadCause.OutOfRange => $"{name} reads outside {Words.Quantity(declared.Minimum, declared.Unit)} to "
                + $"{Words.Quantity(declared.Maximum, declared.Unit)}, where it can be true",
            BadCause.Frozen => $"{name} has not changed for {declared.FrozenAfter} readings, which no live sensor does",
            BadCause.FromTheFuture => $"{name} is stamped later than the scan that read it, so a clock is wrong",
            _ => $"{name} has a reading that cannot be used",
        };
    }

    private static bool AreFinite(in ImageEntry entry) =>
        double.IsFinite(entry.Last) && double.IsFinite(entry.Minimum) && double.IsFinite(entry.Maximum);

    private static ushort ReasonOf(in ImageEntry entry)
    {
        BadCause cause = entry.IsUsable && !AreFinite(entry) ? BadCause.NotFinite
            : entry.Cause <= BadCause.FromTheFuture ? entry.Cause
            : BadCause.None;
        return (ushort)(FirstReason + (ushort)cause);
    }
}

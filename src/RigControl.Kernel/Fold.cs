using System.Runtime.CompilerServices;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>
/// Turns the samples since the last scan into the input image: worst values, worst quality, age. Pure but for the
/// state it is handed, so that a recorded run folds to the same bits again.
/// </summary>
public static class Fold
{
    /// <summary>Takes one sample. Samples of a channel may come out of order; only the latest by time becomes the last value.</summary>
    public static void Add(ReadOnlySpan<Channel> channels, ref FoldState state, in Sample sample)
    {
        ref FoldSlot slot = ref state[sample.Channel];
        BadCause cause = Judge(channels[sample.Channel].Declaration, sample);
        if (slot.Count++ == 0)
            slot.StartInterval();
        CountIdentical(ref slot, sample.Value);
        if (sample.At >= slot.LastAt || slot.Total == 0)
        {
            slot.Last = sample.Value;
            slot.LastAt = sample.At;
            slot.LastCause = cause;
            slot.LastQuality = cause == BadCause.None ? sample.Quality : Quality.Bad;
        }

        slot.Total++;
        if (cause == BadCause.None)
            Widen(ref slot, sample);
        else if (slot.IntervalCause == BadCause.None)
            slot.IntervalCause = cause;
        slot.IntervalQuality = Worst(slot.IntervalQuality, cause == BadCause.None ? sample.Quality : Quality.Bad);
    }

    /// <summary>Closes the interval at the time of the scan and writes the image.</summary>
    public static void Close(ReadOnlySpan<Channel> channels, ref FoldState state, TimeSpan now, ref InputImage image)
    {
        for (int i = 0; i < channels.Length; i++)
        {
            ref FoldSlot slot = ref state[i];
            ref ImageEntry entry = ref image[i];
            entry.Count = slot.Count;
            entry.Last = slot.Last;
            if (slot.HasRange)
                (entry.Minimum, entry.MinimumAt, entry.Maximum, entry.MaximumAt) = (slot.Minimum, slot.MinimumAt, slot.Maximum, slot.MaximumAt);
            else
                (entry.Minimum, entry.MinimumAt, entry.Maximum, entry.MaximumAt) = (slot.Last, slot.LastAt, slot.Last, slot.LastAt);
            entry.Age = now - slot.LastAt;
            entry.Cause = CauseOf(channels[i].Declaration, slot, entry.Age);
            entry.Quality = entry.Cause != BadCause.None ? Quality.Bad : slot.Count > 0 ? slot.IntervalQuality : slot.LastQuality;
            if (entry.Cause == BadCause.FromTheFuture)
                slot.Forget(now);
            (slot.Count, slot.HasRange) = (0, false);
        }
    }

    private static BadCause Judge(ChannelDeclaration declaration, in Sample sample)
    {
        if (sample.Quality == Quality.Bad)
            return BadCause.Reported;
        if (!double.IsFinite(sample.Value))
            return BadCause.NotFinite;
        return sample.Value >= declaration.Minimum && sample.Value <= declaration.Maximum ? BadCause.None : BadCause.OutOfRange;
    }

    private static BadCause CauseOf(ChannelDeclaration declaration, in FoldSlot slot, TimeSpan age)
    {
        if (slot.Total == 0)
            return BadCause.Never;
        if (age < TimeSpan.Zero)
            return BadCause.FromTheFuture;
        if (age > declaration.MaximumAge)
            return BadCause.TooOld;
        if (declaration.FrozenAfter > 0 && slot.Identical >= declaration.FrozenAfter)
            return BadCause.Frozen;
        return slot.Count > 0 ? slot.IntervalCause : slot.LastCause;
    }

    private static void CountIdentical(ref FoldSlot slot, double value)
    {
        slot.Identical = slot.Total > 0 && value.Equals(slot.Last) ? slot.Identical + 1 : 1;
    }

    private static void Widen(ref FoldSlot slot, in Sample sample)
    {
        if (!slot.HasRange)
        {
            (slot.Minimum, slot.Maximum) = (sample.Value, sample.Value);
            (slot.MinimumAt, slot.MaximumAt) = (sample.At, sample.At);
            slot.HasRange = true;
            return;
        }

        if (sample.Value < slot.Minimum)
            (slot.Minimum, slot.MinimumAt) = (sample.Value, sample.At);
        if (sample.Value > slot.Maximum)
            (slot.Maximum, slot.MaximumAt) = (sample.Value, sample.At);
    }

    private static Quality Worst(Quality a, Quality b) => a < b ? a : b;
}

/// <summary>What folding carries from scan to scan, one slot per channel.</summary>
[InlineArray(InputImage.Capacity)]
public struct FoldState
{
    private FoldSlot _first;
}

/// <summary>One channel's fold.</summary>
public struct FoldSlot
{
    internal double Last;
    internal double Minimum;
    internal double Maximum;
    internal TimeSpan LastAt;
    internal TimeSpan MinimumAt;
    internal TimeSpan MaximumAt;
    internal long Total;
    internal int Count;
    internal int Identical;
    internal BadCause LastCause;
    internal BadCause IntervalCause;
    internal Quality LastQuality;
    internal Quality IntervalQuality;
    internal bool HasRange;

    // Otherwise no reading stamped rightly could become the latest until that future has come.
    internal void Forget(TimeSpan now)
    {
        LastAt = now;
        LastCause = BadCause.FromTheFuture;
        LastQuality = Quality.Bad;
    }

    internal void StartInterval()
    {
        IntervalCause = BadCause.None;
        IntervalQuality = Quality.Good;
    }
}

namespace RigControl.Model.Signals;

/// <summary>
/// What a decision may know of one channel: the worst values since the last scan, never only the latest.
/// The zero value is Bad. The fields leave no padding, so that the bytes can be hashed.
/// </summary>
public struct ImageEntry
{
    /// <summary>Latest value, in the channel's unit.</summary>
    public double Last;

    /// <summary>Lowest value since the last scan; the latest one where no sample came.</summary>
    public double Minimum;

    /// <summary>Highest value since the last scan; the latest one where no sample came.</summary>
    public double Maximum;

    /// <summary>When <see cref="Minimum"/> was read.</summary>
    public TimeSpan MinimumAt;

    /// <summary>When <see cref="Maximum"/> was read.</summary>
    public TimeSpan MaximumAt;

    /// <summary>Time since the latest sample.</summary>
    public TimeSpan Age;

    /// <summary>Samples since the last scan.</summary>
    public int Count;

    /// <summary>Why the entry is Bad, for the sentence that a person reads.</summary>
    public BadCause Cause;

    /// <summary>The worst quality since the last scan.</summary>
    public Quality Quality;

    /// <summary>Whether the entry may be used for a decision.</summary>
    public readonly bool IsUsable => Quality != Quality.Bad;
}

namespace RigControl.Model.Signals;

/// <summary>Why a channel's entry is Bad.</summary>
public enum BadCause : ushort
{
    /// <summary>No sample has ever come.</summary>
    Never = 0,

    /// <summary>The entry is usable.</summary>
    None = 1,

    /// <summary>The latest sample is older than the channel allows.</summary>
    TooOld = 2,

    /// <summary>The device itself called the reading Bad.</summary>
    Reported = 3,

    /// <summary>Not a number, or infinite.</summary>
    NotFinite = 4,

    /// <summary>Outside the range in which the channel can be true.</summary>
    OutOfRange = 5,

    /// <summary>Identical for longer than a live sensor can be.</summary>
    Frozen = 6,

    /// <summary>Stamped later than the scan that read it: a clock is wrong.</summary>
    FromTheFuture = 7,
}

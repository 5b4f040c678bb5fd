namespace RigControl.Model.Records;

/// <summary>How a run ended.</summary>
/// <param name="Outcome">What became of it.</param>
/// <param name="EndedAt">By the wall clock.</param>
/// <param name="Note">A sentence for a person, or null.</param>
public sealed record RunEnd(RunOutcome Outcome, DateTimeOffset EndedAt, string? Note);

/// <summary>What became of a run. The zero value is what a run shows whose end nobody wrote.</summary>
public enum RunOutcome : byte
{
    /// <summary>The record ends without an end: the process was killed or the machine lost power.</summary>
    BrokenOff = 0,

    /// <summary>The procedure was done to its end.</summary>
    Completed = 1,

    /// <summary>It did not start.</summary>
    Refused = 2,

    /// <summary>It started and ended in safe-stop.</summary>
    SafeStop = 3,

    /// <summary>A device or the storage failed before anything was energised, or the program itself failed.</summary>
    Failed = 4,
}

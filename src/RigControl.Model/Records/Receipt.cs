namespace RigControl.Model.Records;

/// <summary>The one answer to a command.</summary>
/// <param name="Command">The command's id.</param>
/// <param name="Kind">What was asked.</param>
/// <param name="Source">Who asked.</param>
/// <param name="Refusal">None when accepted.</param>
/// <param name="Value">The answer given; 0 with every other kind.</param>
public readonly record struct Receipt(long Command, CommandKind Kind, CommandSource Source, RefusalReason Refusal, double Value = 0);

/// <summary>Why a command was refused. The zero value is not an acceptance.</summary>
public enum RefusalReason : byte
{
    NotConsidered = 0,

    /// <summary>Accepted.</summary>
    None = 1,

    /// <summary>It does not belong to this state.</summary>
    WrongState = 2,

    /// <summary>The rotor is not proven to stand still.</summary>
    NotAtStandstill = 3,

    /// <summary>A latched cause still stands.</summary>
    CauseStands = 4,

    /// <summary>An interlock does not proceed; the demands of the record say which.</summary>
    InterlockObjects = 5,

    /// <summary>Only the bench may raise energy.</summary>
    NotFromHere = 6,

    /// <summary>The procedure has no such step now.</summary>
    NotInProcedure = 7,

    /// <summary>A cause that only a restart lets go.</summary>
    NeedsRestart = 8,

    /// <summary>The operator stopped in the same scan.</summary>
    Stopped = 9,

    /// <summary>The answer is not one that the question takes.</summary>
    NoSuchAnswer = 10,

    /// <summary>The rotor turns, or the longest credible coast-down has not passed since the power was seen gone.</summary>
    NotRunDown = 11,
}

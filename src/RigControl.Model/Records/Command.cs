namespace RigControl.Model.Records;

/// <summary>An operator's act, on its way to the kernel. Each gets exactly one receipt.</summary>
/// <param name="Id">Rises by one with every command of the session.</param>
/// <param name="Kind">What is asked.</param>
/// <param name="Source">Who asked.</param>
/// <param name="Value">The answer; 0 with every other kind.</param>
public readonly record struct Command(long Id, CommandKind Kind, CommandSource Source, double Value = 0);

/// <summary>What may be asked of the rig. The zero value stops it.</summary>
public enum CommandKind : byte
{
    Stop = 0,
    Reset = 1,
    Arm = 2,
    Start = 3,
    Unlock = 4,
    Lock = 5,

    /// <summary>Switches the marker light for the length of one scan record.</summary>
    Mark = 6,

    /// <summary>Answers the question of the step.</summary>
    Answer = 7,

    /// <summary>Says that somebody looked at the rotor, and that it stands.</summary>
    Look = 8,
}

/// <summary>Who asked. Everything but the bench may only lower energy.</summary>
public enum CommandSource : byte
{
    Network = 0,
    Bench = 1,
    Host = 2,
}

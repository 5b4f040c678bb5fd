namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>Inputs and outputs of the board as bits of its line protocol. None of them set is the safe reading.</summary>
[Flags]
internal enum BoardBits : ushort
{
    None = 0,
    LidContactA = 1,
    LidContactB = 2,
    BoltHome = 4,
    StopClear = 8,
    KeyClosed = 16,

    /// <summary>The contactor is not proven open.</summary>
    ContactorClosed = 32,
    Receiver = 64,

    /// <summary>The arm key was closed afresh since the last reset.</summary>
    KeyFresh = 128,

    /// <summary>The square wave that holds the contactor runs.</summary>
    PowerOn = 256,
    LockReleased = 512,
    MarkerOn = 1024,
    PulsesRunning = 2048,

    /// <summary>The receiver's pulse is being passed on.</summary>
    GateOpen = 4096,
}

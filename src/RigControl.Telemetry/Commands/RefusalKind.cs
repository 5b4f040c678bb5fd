namespace RigControl.Telemetry.Commands;

/// <summary>Why a command from the network was not even considered.</summary>
internal enum RefusalKind
{
    /// <summary>It is no command that there is, or not written as one.</summary>
    Malformed = 0,

    /// <summary>The broker had kept it: whoever sent it may be long gone.</summary>
    Retained = 1,

    /// <summary>It came after its time, or would be good for too long.</summary>
    Expired = 2,

    /// <summary>It was here before.</summary>
    Repeated = 3,

    /// <summary>It is larger than any command.</summary>
    Oversized = 4,

    /// <summary>The broker denied it: the client has no right to it.</summary>
    Denied = 5,

    /// <summary>There is no such trip, or no run.</summary>
    Pointless = 6,
}

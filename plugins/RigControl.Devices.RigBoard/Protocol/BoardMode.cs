namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>What the board says it is doing.</summary>
internal enum BoardMode : byte
{
    /// <summary>No configuration loaded, or not yet confirmed.</summary>
    Bare,

    /// <summary>A cause is latched.</summary>
    Trip,

    /// <summary>Stop pulse, no power.</summary>
    Idle,

    /// <summary>Power demanded, stop or arming pulse.</summary>
    Live,

    /// <summary>Another pulse.</summary>
    Spin,
}

namespace RigControl.Telemetry.Broker;

/// <summary>What a client of the embedded broker may do. The zero value may do nothing.</summary>
internal enum Role
{
    None = 0,

    /// <summary>May watch.</summary>
    Reader = 1,

    /// <summary>May watch, stop and acknowledge.</summary>
    Operator = 2,

    /// <summary>The rig's own host, which alone publishes the rest.</summary>
    Host = 3,
}

namespace RigControl.Campaigns;

/// <summary>What goes wrong in a run: with the plant, with a sensor on its way to the host, or with the host itself.</summary>
public enum FaultKind
{
    None,

    // The plant and the people around it.
    LidForced,
    LidPulled,
    LidContactStuck,
    StopPressed,
    StopContactStuck,
    RadioLost,
    ContactorWelded,
    ContactorDead,
    BoltStuck,
    SlowActuators,
    StuckPulse,
    ControllerRunaway,
    ControllerShorted,
    RotorJammed,
    FailingBearing,
    TachometerSilent,
    TachometerDoubled,
    TachometerHalved,
    MotorHeated,
    BoardRestart,
    BoardSwapped,
    BoardLies,
    RigUnpowered,
    UnlockSought,

    // A channel on its way to the host.
    SensorStuck,
    SensorSilent,
    SensorNotANumber,
    SensorDrifting,
    SensorSpiking,
    SensorLate,
    SensorOutOfOrder,
    SensorLying,
    SensorScaled,
    BoltLies,
    TachometerFrozen,
    TachometerZero,

    // The host and who sits before it.
    ClockStep,
    DeviceThrows,
    HostRestart,
    ScansLate,
    SinkSlow,
    SinkFails,
    InboxFlooded,
    OperatorLeaves,
    ProofAbsent,
    ProofExpired,
    ProofVoided,
}

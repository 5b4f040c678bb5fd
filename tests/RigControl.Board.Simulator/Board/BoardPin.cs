namespace RigControl.Board.Simulator.Board;

/// <summary>Pins of the rig board by their names in <c>docs/board.md</c>. Value: 8 × port + bit, with port B = 0, C = 1, D = 2.</summary>
public enum BoardPin : byte
{
    /// <summary>Input PB0. A falling edge is one tachometer pulse.</summary>
    Tachometer = 0,

    /// <summary>Output PB2. The servo pulse, high while it lasts.</summary>
    ServoPulse = 2,

    /// <summary>Output PB3. The square wave that holds the contactor.</summary>
    PowerWatch = 3,

    /// <summary>Output PB4. High energises the release solenoid of the lid lock.</summary>
    LockRelease = 4,

    /// <summary>Output PB5. High lights the marker.</summary>
    Marker = 5,

    /// <summary>Input PC4. Servo pulse of the radio receiver, high while it lasts.</summary>
    Receiver = 12,

    /// <summary>Output PC5. The second output's servo pulse, high while it lasts.</summary>
    SecondPulse = 13,

    /// <summary>Input PD2. Low when the lid is closed.</summary>
    LidA = 18,

    /// <summary>Input PD3. High when the lid is closed.</summary>
    LidB = 19,

    /// <summary>Input PD4. Low when the bolt is home.</summary>
    LockBolt = 20,

    /// <summary>Input PD5. Low when the stop circuit is closed.</summary>
    StopCircuit = 21,

    /// <summary>Input PD6. Low when the arm key is closed.</summary>
    ArmKey = 22,

    /// <summary>Input PD7. Low when the contactor is proven open.</summary>
    ContactorFeedback = 23,
}

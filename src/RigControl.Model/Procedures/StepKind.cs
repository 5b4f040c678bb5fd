namespace RigControl.Model.Procedures;

/// <summary>What a step does. The zero value energises nothing.</summary>
public enum StepKind : byte
{
    /// <summary>Nothing energised, in Idle; waits for a time or a condition.</summary>
    Rest = 0,

    /// <summary>Power on and controller ready; the operator arms and starts.</summary>
    Arm = 1,

    /// <summary>The output rises to a level.</summary>
    SpinUp = 2,

    /// <summary>The output stays at its level.</summary>
    Hold = 3,

    /// <summary>The output stops and the rotor runs down.</summary>
    CoastDown = 4,

    /// <summary>Nothing energised by the rig, in Idle; what happens is recorded.</summary>
    Observe = 5,

    /// <summary>A person reads something and types it, in Idle.</summary>
    Ask = 6,

    /// <summary>A person tries something and says whether it passed, in Idle.</summary>
    Trial = 7,

    /// <summary>The board passes the receiver's pulse: the transmitter drives, and every interlock still stops it.</summary>
    Gate = 8,

    /// <summary>A fault is made on purpose; it always ends in safe-stop. Only in a verification.</summary>
    Provoke = 9,
}

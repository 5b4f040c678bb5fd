namespace RigControl.Physics;

/// <summary>What the pulse asks of the controller.</summary>
public enum ControllerMode : byte
{
    /// <summary>Forward only.</summary>
    OneWay = 0,

    /// <summary>Forward and reverse, stop between.</summary>
    TwoWay = 1,

    /// <summary>A position that follows the pulse; no rotor is driven.</summary>
    Servo = 2,
}

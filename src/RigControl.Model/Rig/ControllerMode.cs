namespace RigControl.Model.Rig;

/// <summary>What kind of output the pulse drives.</summary>
public enum ControllerMode : byte
{
    /// <summary>Forward only; stop is at one end of the pulse range.</summary>
    OneWay = 0,

    /// <summary>Forward and reverse; stop is between the ends.</summary>
    TwoWay = 1,

    /// <summary>A position; stop is the position declared safe.</summary>
    Servo = 2,
}

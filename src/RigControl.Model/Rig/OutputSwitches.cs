namespace RigControl.Model.Rig;

/// <summary>The two-valued outputs. None of them set is the safe value. Sixty-four bits, so that the image has no padding.</summary>
[Flags]
public enum OutputSwitches : ulong
{
    None = 0,

    /// <summary>The contactor that supplies the controller is held.</summary>
    Power = 1,

    /// <summary>The guard lock's release is energised.</summary>
    Unlocked = 2,

    /// <summary>The marker light that lines footage up with the record.</summary>
    Marker = 4,

    /// <summary>The warning before the output rises.</summary>
    Warning = 8,

    /// <summary>An operator's arm is under way, so that a device that latches by itself may be reset. A repeat's own arming never has it.</summary>
    OperatorArms = 16,

    /// <summary>The board may pass the receiver's pulse on, within the controller's range, in place of <see cref="OutputImage.Pulse"/>.</summary>
    Gate = 32,

    /// <summary>The host says nothing to its devices on purpose; what stands beside this is not sent.</summary>
    Silent = 64,
}

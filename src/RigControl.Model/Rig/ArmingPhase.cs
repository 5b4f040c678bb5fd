namespace RigControl.Model.Rig;

/// <summary>How far arming has come. Besides <see cref="RigState.Arming"/>, a level that is about to be raised has the warning.</summary>
public enum ArmingPhase : byte
{
    None = 0,

    /// <summary>Power is on; the controller's arming time runs and every interlock must come to proceed.</summary>
    Preparing = 1,

    /// <summary>All is ready; the operator's start is awaited.</summary>
    AwaitingStart = 2,

    /// <summary>Start was given; the warning sounds before the output rises.</summary>
    Warning = 3,
}

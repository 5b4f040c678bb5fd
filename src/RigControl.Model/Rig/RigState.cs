namespace RigControl.Model.Rig;

/// <summary>The six states of the rig. The zero value is the safe one.</summary>
public enum RigState : byte
{
    /// <summary>Outputs at stop, power off, lid locked; left only by an operator's reset at standstill.</summary>
    SafeStop = 0,

    /// <summary>Nothing energised; the rotor is at rest.</summary>
    Idle = 1,

    /// <summary>Power on, output at stop; waiting for the controller, for the start and through the warning.</summary>
    Arming = 2,

    /// <summary>The output is rising.</summary>
    SpinUp = 3,

    /// <summary>The output is held at a level.</summary>
    Hold = 4,

    /// <summary>Output at stop, power on, the rotor running down.</summary>
    CoastDown = 5,
}

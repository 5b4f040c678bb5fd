namespace RigControl.Physics;

/// <summary>Where the energy went since the beginning, J. Pack + from outside = all the rest + stored in the rotor.</summary>
public struct EnergyBalance
{
    /// <summary>Given by the cells, before their own resistance.</summary>
    public double FromPack;

    /// <summary>Turned to heat in the pack.</summary>
    public double PackHeat;

    /// <summary>Turned to heat in the controller, its own draw included.</summary>
    public double ControllerHeat;

    /// <summary>Turned to heat in the windings.</summary>
    public double WindingHeat;

    /// <summary>Work of the windings' torque on the rotor; negative where the rotor gives it back.</summary>
    public double ShaftWork;

    /// <summary>Lost by the rotor to motor iron.</summary>
    public double IronHeat;

    /// <summary>Lost by the rotor to bearings, seals, air and whatever jams it.</summary>
    public double DragLoss;

    /// <summary>Given off to the surroundings by motor, controller and pack.</summary>
    public double GivenOff;
}

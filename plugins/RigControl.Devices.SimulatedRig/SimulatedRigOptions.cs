using RigControl.Contracts;

namespace RigControl.Devices.SimulatedRig;

/// <summary>Options of the simulated rig. What the article's file declares comes from there; here stands what only a simulation has.</summary>
public sealed class SimulatedRigOptions
{
    /// <summary>Temperature of everything at the beginning, degC, -20 to 60, default 20.</summary>
    [Meaning("Temperature of everything at the beginning.")]
    [Quantity("degC", -20, 60)]
    public double Ambient { get; init; } = 20;

    /// <summary>Charge of the pack at the beginning, %, 0 to 100, default 100.</summary>
    [Meaning("Charge of the pack at the beginning.")]
    [Quantity("%", 0, 100)]
    public double StateOfCharge { get; init; } = 100;

    /// <summary>Windage as a share of a smooth disc's, %, 0 to 1000, default 100.</summary>
    [Meaning("Windage as a share of a smooth disc's of the same radius.")]
    [Quantity("%", 0, 1000)]
    public double Windage { get; init; } = 100;

    /// <summary>When the lid is forced open, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the lid is forced open, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double LidForcedAt { get; init; }

    /// <summary>When the stop is pressed, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the stop is pressed, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double StopPressedAt { get; init; }

    /// <summary>When the tachometer falls silent, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the tachometer falls silent, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double TachometerSilentAt { get; init; }

    /// <summary>When the radio is lost, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the radio is lost, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double RadioLostAt { get; init; }

    /// <summary>When the contactor's contacts weld, s after the start, 0 to 86400; 0 is never, the default. Once closed it then stays closed.</summary>
    [Meaning("When the contactor's contacts weld, counted from the start; once closed it then stays closed; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double ContactorWeldedAt { get; init; }

    /// <summary>When the controller's line sticks, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the controller's line sticks at stuck-pulse, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double PulseStuckAt { get; init; }

    /// <summary>Pulse that the controller sees once its line is stuck, us, 500 to 2500, default 1500.</summary>
    [Meaning("Pulse that the controller sees once its line is stuck.")]
    [Quantity("us", 500, 2500)]
    public double StuckPulse { get; init; } = 1500;

    /// <summary>When the controller shorts and connects supply and motor straight through, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the controller shorts and connects supply and motor straight through, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double ControllerShortedAt { get; init; }

    /// <summary>When the controller gives full output whatever it is told, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the controller gives full output whatever it is told, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double ControllerRunsAwayAt { get; init; }

    /// <summary>When the receiver begins to hold its last pulse whenever the radio is lost, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the receiver begins to hold its last pulse whenever the radio is lost, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double ReceiverHoldsAt { get; init; }

    /// <summary>When the gate sticks open and lets the receiver's pulse through whatever is demanded, s after the start, 0 to 86400; 0 is never, the default.</summary>
    [Meaning("When the gate sticks open and lets the receiver's pulse through whatever is demanded, counted from the start; 0 s is never.")]
    [Quantity("s", 0, 86400)]
    public double GateStuckAt { get; init; }

    /// <summary>Where the simulated transmitter's stick goes a second after the gate has opened, %, -100 to 100, default 40; before, it is at stop.</summary>
    [Meaning("Where the simulated transmitter's stick goes a second after the gate has opened; before, it is at stop.")]
    [Quantity("%", -100, 100)]
    public double Stick { get; init; } = 40;

    /// <summary>Whether the bench's board stops by itself when a lid or stop contact opens, default yes.</summary>
    [Meaning("Whether the bench's board stops by itself when a lid or stop contact opens.")]
    public bool OwnStop { get; init; } = true;

    /// <summary>Heat put into the motor from outside, W, 0 to 10000, default 0.</summary>
    [Meaning("Heat put into the motor from outside.")]
    [Quantity("W", 0, 10000)]
    public double AddedHeat { get; init; }

    /// <summary>Whether something holds the rotor fast from the beginning, as for a stall, default no.</summary>
    [Meaning("Whether something holds the rotor fast from the beginning, as for a stall.")]
    public bool RotorHeld { get; init; }

    /// <summary>Pulse at which the controller's range really begins, us, 0 to 2500; 0 is close to stop, the default.</summary>
    [Meaning("Pulse at which the controller's range really begins; 0 us is close to the article's stop.")]
    [Quantity("us", 0, 2500)]
    public double RangeBeginsAt { get; init; }

    /// <summary>Pulse at which the controller's range really ends, us, 0 to 2500; 0 is as declared, the default.</summary>
    [Meaning("Pulse at which the controller's range really ends; 0 us is where the article says.")]
    [Quantity("us", 0, 2500)]
    public double RangeEndsAt { get; init; }

    /// <summary>Marks that really pass the tachometer in a turn, 1 to 12, default 1, which is what the bench's tachometer is set to.</summary>
    [Meaning("Marks that really pass the tachometer in a turn; it is set to one.")]
    [Count(1, 12)]
    public int Marks { get; init; } = 1;
}

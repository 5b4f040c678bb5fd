namespace RigControl.Physics;

/// <summary>What a person or bad luck does to the bench. The zero value is a healthy bench left alone.</summary>
public struct BenchFaults
{
    /// <summary>Someone pulls at the lid: it opens once the bolt is drawn, and stays open while pulled.</summary>
    public bool LidPulled;

    /// <summary>The lid opens whatever the bolt does.</summary>
    public bool LidForced;

    public ContactFault LidContactA;

    public ContactFault LidContactB;

    /// <summary>Someone presses stop.</summary>
    public bool StopPressed;

    public ContactFault StopContact;

    /// <summary>The receiver hears no transmitter.</summary>
    public bool RadioLost;

    /// <summary>Once closed the contactor stays closed.</summary>
    public bool ContactorWelded;

    /// <summary>The contactor's coil has no effect: it never closes, and opens if closed.</summary>
    public bool ContactorDead;

    /// <summary>The bolt stays where it is.</summary>
    public bool BoltStuck;

    /// <summary>Added to every delay of contactor and bolt, s, zero or above.</summary>
    public double ActuatorDelay;

    /// <summary>The controller sees this pulse whatever is sent, us; 0 for a healthy line.</summary>
    public double StuckPulse;

    /// <summary>The controller gives full output whatever it sees, within its current limit.</summary>
    public bool ControllerRunaway;

    /// <summary>The controller connects supply and windings straight through, with no current limit.</summary>
    public bool ControllerShorted;

    /// <summary>Something holds the rotor, with the bench's jam torque.</summary>
    public bool RotorJammed;

    /// <summary>Dry friction added at the bearings, N.m, zero or above: a failing bearing.</summary>
    public double AddedFriction;

    public TachometerFault Tachometer;

    /// <summary>Heat put into the motor's case from outside, W.</summary>
    public double AddedHeat;
}

namespace RigControl.Physics;

/// <summary>
/// What is really so on the bench, at the end of the last step. Nothing here is a reading: no noise, no fault of a sensor.
/// </summary>
public struct BenchTruth
{
    /// <summary>s since the beginning.</summary>
    public double Time;

    /// <summary>rad/s, negative backwards.</summary>
    public double Speed;

    /// <summary>rad/s2, mean over the last sub-step.</summary>
    public double Acceleration;

    /// <summary>Energy in the rotor, J.</summary>
    public double StoredEnergy;

    /// <summary>m/s.</summary>
    public double TipSpeed;

    /// <summary>Share of the supply on the windings, −1 to 1; 0 when nothing is driven.</summary>
    public double Duty;

    /// <summary>Whether the controller obeys its pulse.</summary>
    public bool ControllerArmed;

    /// <summary>In servo mode the position, −1 to 1.</summary>
    public double ServoPosition;

    /// <summary>Winding current, A.</summary>
    public double MotorCurrent;

    /// <summary>Current out of the pack, A.</summary>
    public double PackCurrent;

    /// <summary>Highest pack current within the last step, A.</summary>
    public double HighestPackCurrent;

    /// <summary>At the pack's terminals, V.</summary>
    public double PackVoltage;

    /// <summary>Lowest pack voltage within the last step, V.</summary>
    public double LowestPackVoltage;

    /// <summary>Behind the contactor, V; 0 while it is open.</summary>
    public double SupplyVoltage;

    /// <summary>0 to 1, below 0 when drawn past empty.</summary>
    public double StateOfCharge;

    /// <summary>Charge drawn from the pack, A.s.</summary>
    public double ChargeUsed;

    /// <summary>degC.</summary>
    public double WindingTemperature, CaseTemperature, ControllerTemperature, PackTemperature, AmbientTemperature;

    public bool ContactorClosed;

    public bool LidClosed;

    public bool BoltHome;

    /// <summary>Whether the stop is pressed by someone; what the circuit says may differ.</summary>
    public bool StopPressed;

    /// <summary>Where the energy went.</summary>
    public EnergyBalance Energy;

    /// <summary>Whether power reaches the windings.</summary>
    public readonly bool Driven => ContactorClosed && Duty != 0;
}

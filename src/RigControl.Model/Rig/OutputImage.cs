namespace RigControl.Model.Rig;

/// <summary>What the rig is told to do. The zero value is the safe one: no pulse, power off, lid locked.</summary>
public struct OutputImage
{
    /// <summary>Demand as a share of the range above stop: 0 is stop, 1 is full; negative only on two-way controllers.</summary>
    public double Throttle;

    /// <summary>Servo pulse in microseconds; 0 means no pulse at all.</summary>
    public double Pulse;

    /// <summary>The second output's demand, as a share like <see cref="Throttle"/>; 0 where the article has none.</summary>
    public double SecondThrottle;

    /// <summary>The second output's servo pulse in microseconds; 0 means no pulse at all.</summary>
    public double SecondPulse;

    /// <summary>Power, lock and the other two-valued outputs.</summary>
    public OutputSwitches Switches;

    public readonly bool Power => (Switches & OutputSwitches.Power) != 0;

    public readonly bool Unlocked => (Switches & OutputSwitches.Unlocked) != 0;

    public readonly bool Marker => (Switches & OutputSwitches.Marker) != 0;

    public readonly bool Warning => (Switches & OutputSwitches.Warning) != 0;

    public readonly bool Gate => (Switches & OutputSwitches.Gate) != 0;

    public readonly bool Silent => (Switches & OutputSwitches.Silent) != 0;

    /// <summary>Whether anything is to move: a demand on either output, or the receiver's through the gate.</summary>
    public readonly bool Drives => Gate || Throttle != 0 || SecondThrottle != 0;

    public readonly bool OperatorArms => (Switches & OutputSwitches.OperatorArms) != 0;
}

namespace RigControl.Model.Rig;

/// <summary>What the article's speed controller needs. Every value is declared by the builder; none has a default.</summary>
public sealed record ControllerProfile
{
    public required ControllerMode Mode { get; init; }

    /// <summary>Pulse at which the controller drives nothing, us, 500 to 2500.</summary>
    public required double StopPulse { get; init; }

    /// <summary>Shortest pulse, us, 500 to 2500: stop or below on a one-way controller, full reverse on a two-way one.</summary>
    public required double MinimumPulse { get; init; }

    /// <summary>Longest pulse, us, 500 to 2500.</summary>
    public required double MaximumPulse { get; init; }

    /// <summary>Whether a rising throttle lengthens or shortens the pulse.</summary>
    public required PulseDirection Direction { get; init; }

    /// <summary>Whether the controller brakes the rotor at stop. A braked rotor gives no drag figure.</summary>
    public required bool BrakesAtStop { get; init; }

    public required CeasedPulseBehaviour WhenPulsesCease { get; init; }

    /// <summary>Time at stop pulse after power-on until the controller obeys.</summary>
    public required TimeSpan ArmingTime { get; init; }

    /// <summary>Whether it goes to the other side of stop too: a two-way controller, and a servo whose stop lies between its ends.</summary>
    public bool GoesBelowStop => Mode == ControllerMode.TwoWay || (Mode == ControllerMode.Servo && PulseFor(-1) != StopPulse);

    /// <summary>Pulse for a throttle, in us. <paramref name="throttle"/> is a share, -1 to 1; negative only where <see cref="GoesBelowStop"/>.</summary>
    public double PulseFor(double throttle)
    {
        double above = Direction == PulseDirection.Longer ? MaximumPulse : MinimumPulse;
        double below = Direction == PulseDirection.Longer ? MinimumPulse : MaximumPulse;
        return throttle >= 0 ? StopPulse + throttle * (above - StopPulse) : StopPulse - throttle * (below - StopPulse);
    }
}

namespace RigControl.Physics;

/// <summary>A speed controller's data: how it reads its pulse, when it obeys and what it does at stop.</summary>
public sealed record SpeedController
{
    public ControllerMode Mode { get; init; }

    /// <summary>Pulse at which nothing is driven, us.</summary>
    public double StopPulse { get; init; } = 1000;

    /// <summary>Shortest pulse, us.</summary>
    public double MinimumPulse { get; init; } = 1000;

    /// <summary>Longest pulse, us.</summary>
    public double MaximumPulse { get; init; } = 2000;

    /// <summary>True where a shorter pulse means more throttle.</summary>
    public bool Reversed { get; init; }

    /// <summary>Pulses this near to stop are stop, us.</summary>
    public double Deadband { get; init; } = 15;

    /// <summary>Pulses this far beyond the ends are still taken for the end, us; further out they are no pulse.</summary>
    public double Tolerance { get; init; } = 100;

    /// <summary>Time at stop pulse after power-on until it obeys, s.</summary>
    public double ArmingTime { get; init; } = 1;

    /// <summary>Time without pulses after which it takes them as ceased, s.</summary>
    public double PulseTimeout { get; init; } = 0.1;

    /// <summary>True for a controller that goes on with the last demand when pulses cease.</summary>
    public bool RunsOnWithoutPulses { get; init; }

    /// <summary>True where stop shorts the windings instead of letting them run free.</summary>
    public bool BrakesAtStop { get; init; }

    /// <summary>Greatest winding current, driving or braking, A.</summary>
    public double CurrentLimit { get; init; } = 30;

    /// <summary>Fastest rise of the duty, share per second; it falls at once. In servo mode the travel per second.</summary>
    public double DutyRise { get; init; } = 5;

    /// <summary>Resistance of the path through it to the windings, ohm.</summary>
    public double Resistance { get; init; } = 0.006;

    /// <summary>What its own electronics draw, A.</summary>
    public double IdleCurrent { get; init; } = 0.06;

    /// <summary>Supply below which it resets and must be armed again, V.</summary>
    public double MinimumSupply { get; init; } = 5;

    /// <summary>Whether a pulse in us is one at all.</summary>
    public bool Hears(double pulse) => pulse > 0 && pulse >= MinimumPulse - Tolerance && pulse <= MaximumPulse + Tolerance;

    /// <summary>Demand as a share of full, −1 to 1 (0 to 1 where one-way), for a pulse in us.</summary>
    public double Demand(double pulse)
    {
        double offset = Reversed ? StopPulse - pulse : pulse - StopPulse;
        if (Math.Abs(offset) <= Deadband)
            return 0;
        double forward = Reversed ? StopPulse - MinimumPulse : MaximumPulse - StopPulse;
        double reverse = Reversed ? MaximumPulse - StopPulse : StopPulse - MinimumPulse;
        if (offset > 0)
            return forward > 0 ? Math.Min(1, offset / forward) : 0;
        return Mode != ControllerMode.OneWay && reverse > 0 ? Math.Max(-1, offset / reverse) : 0;
    }
}

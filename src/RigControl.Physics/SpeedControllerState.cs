namespace RigControl.Physics;

/// <summary>A speed controller from moment to moment. The zero value is unpowered, disarmed and drives nothing.</summary>
public struct SpeedControllerState
{
    private double _demand;
    private double _stoppedFor;
    private double _silentFor;

    /// <summary>Whether it obeys.</summary>
    public bool Armed { get; private set; }

    /// <summary>Share of the supply on the windings, −1 to 1.</summary>
    public double Duty { get; private set; }

    /// <summary>In servo mode the position, −1 to 1.</summary>
    public double Position { get; private set; }

    /// <summary>Whether the windings are shorted.</summary>
    public bool Braking { get; private set; }

    /// <summary>Listens for <paramref name="dt"/> s to a pulse in us (0 for none) with or without supply.</summary>
    public void Advance(SpeedController data, double pulse, bool powered, double dt)
    {
        if (!powered)
        {
            this = new SpeedControllerState { Position = Position };
            return;
        }

        Listen(data, pulse, dt);
        Arm(data, dt);
        if (data.Mode == ControllerMode.Servo)
            Position = Armed ? Towards(Position, _demand, data.DutyRise * dt) : Position;
        else
            Drive(data, dt);
    }

    /// <summary>Full output whatever the pulse says: a controller that has lost its mind.</summary>
    public void RunAway(double share)
    {
        Duty = share;
        Braking = false;
    }

    private void Listen(SpeedController data, double pulse, double dt)
    {
        if (data.Hears(pulse))
        {
            _silentFor = 0;
            _demand = data.Demand(pulse);
            _stoppedFor = _demand == 0 ? _stoppedFor + dt : 0;
            return;
        }

        _silentFor += dt;
        _stoppedFor = 0;
    }

    private void Arm(SpeedController data, double dt)
    {
        bool ceased = _silentFor >= data.PulseTimeout;
        if (ceased && !(Armed && data.RunsOnWithoutPulses))
            Armed = false;
        else if (_stoppedFor >= data.ArmingTime || (data.Mode == ControllerMode.Servo && _silentFor == 0))
            Armed = true;
    }

    private void Drive(SpeedController data, double dt)
    {
        double wanted = Armed ? _demand : 0;
        Duty = wanted * Duty < 0 ? 0 : Grown(Duty, wanted, data.DutyRise * dt);
        Braking = Armed && data.BrakesAtStop && wanted == 0;
    }

    private static double Grown(double duty, double wanted, double rise)
        => Math.Abs(wanted) <= Math.Abs(duty) ? wanted : Towards(duty, wanted, rise);

    private static double Towards(double from, double to, double step)
        => to > from ? Math.Min(to, from + step) : Math.Max(to, from - step);
}

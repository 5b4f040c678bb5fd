namespace RigControl.Physics;

/// <summary>
/// Pack, controller and winding as one averaged circuit. The controller passes power: what the windings take at duty d and current I,
/// the pack gives at current d I. It never charges the pack: power coming back from the rotor ends as heat in the controller.
/// </summary>
public struct DriveCircuit
{
    /// <summary>Rested pack voltage less what the electronics' own draw costs, V.</summary>
    public double Source;

    /// <summary>Resistance of the pack, ohm.</summary>
    public double PackResistance;

    /// <summary>Winding and controller together, ohm.</summary>
    public double LoopResistance;

    /// <summary>Ke, V.s/rad.</summary>
    public double EmfConstant;

    /// <summary>Greatest winding current, A.</summary>
    public double Limit;

    /// <summary>Winding current, A, and its change with speed, A.s, at a duty and a speed in rad/s.</summary>
    public readonly double Drive(double duty, double speed, out double slope)
    {
        slope = 0;
        if (duty == 0)
            return 0;
        double perOhm = 1 / (LoopResistance + duty * duty * PackResistance);
        double current = (duty * Source - EmfConstant * speed) * perOhm;
        // Overrun: the rotor is faster than the duty asks for, and nothing pushes it back.
        if (current * duty <= 0)
            return 0;
        return Limited(current, perOhm, out slope);
    }

    /// <summary>The same with the windings shorted.</summary>
    public readonly double Brake(double speed, out double slope)
    {
        double perOhm = 1 / LoopResistance;
        return Limited(-EmfConstant * speed * perOhm, perOhm, out slope);
    }

    /// <summary>Pack current, A, that feeds a power in W; none for power that comes back.</summary>
    public readonly double PackCurrent(double power)
    {
        if (power <= 0)
            return 0;
        double discriminant = Source * Source - 4 * PackResistance * power;
        return 2 * power / (Source + Math.Sqrt(Math.Max(0, discriminant)));
    }

    private readonly double Limited(double current, double perOhm, out double slope)
    {
        bool limited = Math.Abs(current) > Limit;
        slope = limited ? 0 : -EmfConstant * perOhm;
        return limited ? (current > 0 ? Limit : -Limit) : current;
    }
}

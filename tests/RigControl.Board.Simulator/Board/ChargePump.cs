namespace RigControl.Board.Simulator.Board;

/// <summary>
/// The charge pump that turns the power square wave into coil current. Each rising edge carries charge; a level that stands
/// still, high or low, carries none and the pump runs empty. Nominal parts: the real circuit's are the builder's to measure.
/// </summary>
public struct ChargePump
{
    /// <summary>Time constant with which it runs empty, s.</summary>
    public const double Decay = 0.005;

    /// <summary>Share of the missing charge that one rising edge adds.</summary>
    public const double Gain = 0.5;

    /// <summary>Level above which the coil is switched on, share of full.</summary>
    public const double PickUp = 0.6;

    /// <summary>Level below which the coil is let go, share of full.</summary>
    public const double DropOut = 0.3;

    private double level;
    private ulong at;

    /// <summary>Whether the coil is held.</summary>
    public bool Holding { get; private set; }

    /// <summary>Cycle at which the coil was last let go; 0 for never.</summary>
    public ulong ReleasedAt { get; private set; }

    /// <summary>Takes the rising edge at <paramref name="cycle"/>.</summary>
    public void Rise(ulong cycle)
    {
        Settle(cycle);
        level += (1 - level) * Gain;
        Holding |= level > PickUp;
    }

    /// <summary>Lets time pass to <paramref name="cycle"/>.</summary>
    public void Settle(ulong cycle)
    {
        if (cycle <= at)
            return;
        double before = level;
        level *= Math.Exp(-BoardClock.Seconds(cycle - at) / Decay);
        if (Holding && level <= DropOut)
            ReleasedAt = at + BoardClock.Cycles(Decay * Math.Log(before / DropOut));
        Holding &= level > DropOut;
        at = cycle;
    }

    /// <summary>Time from the last edge to the coil's release in the worst case, a full pump, s.</summary>
    public static double LongestHold => Decay * Math.Log(1 / DropOut);
}

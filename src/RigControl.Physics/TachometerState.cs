namespace RigControl.Physics;

/// <summary>What the tachometer has seen. The zero value has seen nothing.</summary>
public struct TachometerState
{
    private double _phase;
    private double _tickPhase;
    private double _lastJitter;

    /// <summary>Edges since the beginning.</summary>
    public long Edges { get; private set; }

    /// <summary>
    /// Last measured time between edges, s, a whole number of timer ticks; 0 before two edges were seen.
    /// Several edges in one step give their mean.
    /// </summary>
    public double Period { get; private set; }

    /// <summary>Time from the last edge to the end of the step, s; how a simulated timer input can be fed its edges.</summary>
    public double Age { get; private set; }

    /// <summary>
    /// Speed as a reader without direction would state it, rad/s: from the period, or less when the next edge is overdue.
    /// </summary>
    public readonly double Speed(Tachometer data)
        => Period > 0 ? 2 * Math.PI / (data.PulsesPerRevolution * Math.Max(Period, Age)) : 0;

    /// <summary>Turns the rotor by an angle in rad, evenly over <paramref name="dt"/> s.</summary>
    public void Advance(Tachometer data, double angle, TachometerFault fault, ref SplitMix chance, double dt)
    {
        double turned = fault == TachometerFault.Silent ? 0 : Math.Abs(angle) * EdgesPerRadian(data, fault);
        double phase = _phase + turned;
        long seen = (long)phase;
        _phase = phase - seen;
        if (seen == 0)
        {
            Age += dt;
            return;
        }

        double sinceLast = dt * _phase / turned;
        Measure(data, Age + dt - sinceLast, seen, ref chance);
        Age = sinceLast;
    }

    private void Measure(Tachometer data, double elapsed, long seen, ref SplitMix chance)
    {
        double jitter = data.Jitter > 0 ? data.Jitter * chance.Bell() : 0;
        double ticks = _tickPhase + (elapsed + jitter - _lastJitter) / data.TimerTick;
        double whole = Math.Floor(ticks);
        _tickPhase = ticks - whole;
        _lastJitter = jitter;
        if (Edges > 0)
            Period = Math.Max(1, Math.Floor(whole / seen)) * data.TimerTick;
        Edges += seen;
    }

    private static double EdgesPerRadian(Tachometer data, TachometerFault fault)
    {
        double factor = fault == TachometerFault.Doubled ? 2 : fault == TachometerFault.Halved ? 0.5 : 1;
        return factor * data.PulsesPerRevolution / (2 * Math.PI);
    }
}

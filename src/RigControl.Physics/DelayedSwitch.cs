namespace RigControl.Physics;

/// <summary>Something that follows its command after a while: a contactor, a bolt. The zero value is off.</summary>
public struct DelayedSwitch
{
    private double _waited;

    public bool On { get; private set; }

    /// <summary>Waits <paramref name="dt"/> s; moves once the command has stood for <paramref name="delay"/> s.</summary>
    public void Advance(bool commanded, double delay, double dt)
    {
        if (commanded == On)
        {
            _waited = 0;
            return;
        }

        _waited += dt;
        // A sum of small steps may fall short of the delay by its rounding alone.
        if (_waited + 1e-9 < delay)
            return;
        On = commanded;
        _waited = 0;
    }
}

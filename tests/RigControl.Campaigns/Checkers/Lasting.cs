namespace RigControl.Campaigns.Checkers;

/// <summary>How long something has been so without a break.</summary>
internal struct Lasting
{
    private double _since;
    private bool _on;

    /// <summary>s; 0 while it is not so.</summary>
    public double For(bool so, double now)
    {
        if (so && !_on)
            _since = now;
        _on = so;
        return so ? now - _since : 0;
    }
}

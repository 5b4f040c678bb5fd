namespace RigControl.Devices.RigBoard.Driving;

/// <summary>How long something has been so without a break.</summary>
internal struct Lasting
{
    private bool _so;
    private TimeSpan _since;

    /// <summary>Whether it is so and has been for longer than a time.</summary>
    public bool LongerThan(TimeSpan time, bool so, TimeSpan now)
    {
        if (so && !_so)
            _since = now;
        _so = so;
        return so && now - _since > time;
    }
}

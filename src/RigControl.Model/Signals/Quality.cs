namespace RigControl.Model.Signals;

/// <summary>How far a reading can be trusted. The zero value is the safe one: what nobody has vouched for is Bad.</summary>
public enum Quality : ushort
{
    /// <summary>Not to be used: absent, too old, not finite, out of range or frozen. Counts as tripped everywhere.</summary>
    Bad = 0,

    /// <summary>Usable for the record but obtained with difficulty, for instance after a retry on the bus.</summary>
    Uncertain = 1,

    /// <summary>As good as the channel's declaration says.</summary>
    Good = 2,
}

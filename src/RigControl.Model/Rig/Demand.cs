namespace RigControl.Model.Rig;

/// <summary>An interlock's verdict of one scan. The zero value cuts the power. No padding, so that the bytes can be hashed.</summary>
public struct Demand
{
    /// <summary>The reading that decided, in the channel's unit.</summary>
    public double Value;

    /// <summary>What the reading was held against, in the channel's unit.</summary>
    public double Limit;

    /// <summary>
    /// How far from tripping, as a share of the limit: 1 far away, 0 at the limit, negative beyond.
    /// 1 or 0 for interlocks that know only yes and no.
    /// </summary>
    public double Margin;

    /// <summary>When the sensor showed the reading that decided.</summary>
    public TimeSpan ShownAt;

    /// <summary>The channel that decided, or -1.</summary>
    public int Channel;

    /// <summary>The interlock's own number for the reason, which its Explain turns into a sentence. 0 with Proceed.</summary>
    public ushort Reason;

    public DemandAction Action;

    /// <summary>No objection, with this much room left.</summary>
    public static Demand Proceed(int channel, double value, double limit, double margin, TimeSpan shownAt) => new()
    {
        Action = DemandAction.Proceed, Channel = channel, Value = value, Limit = limit, Margin = margin, ShownAt = shownAt,
    };

    /// <summary>An objection. <paramref name="reason"/> must not be 0.</summary>
    public static Demand Object(DemandAction action, ushort reason, int channel, double value, double limit, double margin, TimeSpan shownAt) => new()
    {
        Action = action, Reason = reason, Channel = channel, Value = value, Limit = limit, Margin = margin, ShownAt = shownAt,
    };
}

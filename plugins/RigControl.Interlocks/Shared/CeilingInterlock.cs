using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>Objects when the worst reading since the last scan has been above a limit for as long as is allowed.</summary>
internal abstract class CeilingInterlock(Channel channel, double limit, TimeSpan allowedFor, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort AboveLimit = 1;

    /// <summary>What is held against the limit; its sign counts.</summary>
    protected abstract Extreme Worst(in ImageEntry entry);

    /// <summary>What such a reading is, as the first half of a sentence.</summary>
    protected virtual string Name(double value) => Words.Full(Channel, value, limit);

    protected sealed override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        Extreme worst = Worst(entry);
        bool lasted = Lasting.Reached(!(worst.Value <= limit), worst.At, input.Now, allowedFor, ref memory);
        double margin = Margin.Under(worst.Value, limit);
        return lasted
            ? Object(AboveLimit, worst.Value, limit, margin, worst.At)
            : Proceed(worst.Value, limit, Margin.Allowed(margin), worst.At);
    }

    protected sealed override string Describe(in Demand demand)
    {
        string name = Name(demand.Value);
        string limitText = Words.Quantity(limit, Channel.Declaration.Unit);
        return demand.Reason switch
        {
            0 when demand.Value > limit => $"{name} is above the limit of {limitText}, which is allowed for less than {Words.Duration(allowedFor)}",
            0 => $"{name} is within the limit of {limitText}",
            _ when allowedFor == TimeSpan.Zero => $"{name} is above the limit of {limitText}",
            _ => $"{name} has been above the limit of {limitText} for {Words.Duration(allowedFor)}",
        };
    }
}

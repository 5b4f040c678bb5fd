using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>over-current</c>.</summary>
public sealed class OverCurrentOptions
{
    /// <summary>Channel of the current, in A. Default battery.current.</summary>
    [ChannelName, Meaning("Channel of the current.")]
    public string Channel { get; set; } = ChannelNames.BatteryCurrent;

    /// <summary>Highest current allowed to last, in either direction, in A, 0.01 to 1000. Required.</summary>
    [Quantity("A", 0.01, 1000), Meaning("Highest current allowed to last, in either direction.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which the limit may be passed without a break, in s, 0 to 60; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 60), Meaning("Time for which the limit may be passed without a break; 0 trips at once.")]
    public double For { get; set; }

    /// <summary>Current that trips at once, however short, in A, 0.01 to 1000; not below <see cref="Limit"/>. Required.</summary>
    [Quantity("A", 0.01, 1000), Meaning("Current that trips at once, however short.")]
    public double Peak { get; set; } = double.NaN;
}

/// <summary>Makes <c>over-current</c>.</summary>
public sealed class OverCurrentPlugin : InterlockPlugin<OverCurrentOptions>
{
    public override string Kind => "over-current";

    public override string Meaning => "The current stays below its limit, short peaks excepted, and always below its peak.";

    public override string Requirement => "SAF-016";

    protected override IInterlock Create(OverCurrentOptions options, InterlockContext context)
    {
        if (!(options.Peak >= options.Limit))
        {
            throw new OptionException($"the peak of {Words.Quantity(options.Peak, "A")} of {context.Id} is below its limit of "
                + $"{Words.Quantity(options.Limit, "A")}; write a peak of at least the limit");
        }

        return new OverCurrent(
            context.Require(options.Channel, "A"), options.Limit, TimeSpan.FromSeconds(options.For), options.Peak, context.Action);
    }
}

internal sealed class OverCurrent(Channel channel, double limit, TimeSpan allowedFor, double peak, DemandAction action)
    : ChannelInterlock(channel, action)
{
    public const ushort AboveLimit = 1;
    public const ushort AbovePeak = 2;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        Extreme worst = Extreme.Of(entry);
        bool lasted = Lasting.Reached(!(worst.Size <= limit), worst.At, input.Now, allowedFor, ref memory);
        if (!(worst.Size <= peak))
            return Object(AbovePeak, worst.Value, peak, Margin.Under(worst.Size, peak), worst.At);
        double margin = Margin.Under(worst.Size, limit);
        return lasted
            ? Object(AboveLimit, worst.Value, limit, margin, worst.At)
            : Proceed(worst.Value, limit, Margin.Allowed(margin), worst.At);
    }

    protected override string Describe(in Demand demand)
    {
        string limitText = Words.Quantity(demand.Limit, "A");
        string reading = Words.Reading(Channel, Math.Abs(demand.Value), demand.Limit) + (demand.Value < 0 ? " backwards" : "");
        return demand.Reason switch
        {
            0 when Math.Abs(demand.Value) > demand.Limit =>
                $"{reading} is above the limit of {limitText}, which is allowed for less than {Words.Duration(allowedFor)}",
            0 => $"{reading} is within the limit of {limitText}",
            AbovePeak => $"{reading} is above the peak of {limitText}",
            _ when allowedFor == TimeSpan.Zero => $"{reading} is above the limit of {limitText}",
            _ => $"{reading} has been above the limit of {limitText} for {Words.Duration(allowedFor)}",
        };
    }
}

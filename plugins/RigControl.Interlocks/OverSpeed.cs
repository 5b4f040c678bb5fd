using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>over-speed</c>.</summary>
public sealed class OverSpeedOptions
{
    /// <summary>Channel of the speed, in rpm. Default rotor.speed.</summary>
    [ChannelName, Meaning("Channel of the speed.")]
    public string Channel { get; set; } = ChannelNames.RotorSpeed;

    /// <summary>Highest speed allowed in either direction, in rpm, 1 to 200000; not above what the article's rotor allows. Required.</summary>
    [Quantity("rpm", 1, 200_000), Meaning("Highest speed allowed in either direction.")]
    public double Limit { get; set; } = double.NaN;
}

/// <summary>Makes <c>over-speed</c>.</summary>
public sealed class OverSpeedPlugin : InterlockPlugin<OverSpeedOptions>
{
    public override string Kind => "over-speed";

    public override string Meaning => "The rotor stays below its highest allowed speed.";

    public override string Requirement => "SAF-015";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(OverSpeedOptions options, InterlockContext context)
    {
        Rotor? rotor = context.Article.Rotor;
        // The rotor's own limit belongs to the rotor's channel; another shaft of the rig may turn faster.
        if (rotor is not null && options.Channel == ChannelNames.RotorSpeed && !(options.Limit <= rotor.MaximumSpeed))
        {
            throw new OptionException($"the limit of {Words.Quantity(options.Limit, "rpm")} of {context.Id} is above the "
                + $"{Words.Quantity(rotor.MaximumSpeed, "rpm")} that the rotor of {context.Article.Name} allows");
        }

        return new OverSpeed(context.Require(options.Channel, "rpm"), options.Limit, context.Action);
    }
}

internal sealed class OverSpeed(Channel channel, double limit, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort TooFast = 1;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        Extreme worst = Extreme.Of(entry);
        double margin = Margin.Under(worst.Size, limit);
        return worst.Size <= limit
            ? Proceed(worst.Value, limit, margin, worst.At)
            : Object(TooFast, worst.Value, limit, margin, worst.At);
    }

    protected override string Describe(in Demand demand)
    {
        string limitText = Words.Quantity(demand.Limit, "rpm");
        string reading = Words.Reading(Channel, Math.Abs(demand.Value), demand.Limit) + (demand.Value < 0 ? " in reverse" : "");
        return demand.Reason == 0 ? $"{reading} is within the limit of {limitText}" : $"{reading} is above the limit of {limitText}";
    }
}

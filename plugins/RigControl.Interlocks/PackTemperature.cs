using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>pack-temperature</c>.</summary>
public sealed class PackTemperatureOptions
{
    /// <summary>Channel of the pack's temperature, in degC. Default battery.temperature.</summary>
    [ChannelName, Meaning("Channel of the pack's temperature.")]
    public string Channel { get; set; } = ChannelNames.BatteryTemperature;

    /// <summary>Lowest temperature at which the pack may be discharged, as its maker says, in degC, -40 to 60. Required.</summary>
    [Quantity("degC", -40, 60), Meaning("Lowest temperature at which the pack may be discharged, as its maker says.")]
    public double Lowest { get; set; } = double.NaN;

    /// <summary>Highest temperature at which the pack may be discharged, as its maker says, in degC, 0 to 150; above <see cref="Lowest"/>. Required.</summary>
    [Quantity("degC", 0, 150), Meaning("Highest temperature at which the pack may be discharged, as its maker says.")]
    public double Highest { get; set; } = double.NaN;
}

/// <summary>Makes <c>pack-temperature</c>.</summary>
public sealed class PackTemperaturePlugin : InterlockPlugin<PackTemperatureOptions>
{
    public override string Kind => "pack-temperature";

    public override string Meaning => "The pack is neither too hot nor too cold to be discharged.";

    public override string Requirement => "SAF-058";

    protected override IInterlock Create(PackTemperatureOptions options, InterlockContext context)
    {
        if (!(options.Highest > options.Lowest))
        {
            throw new OptionException($"the highest temperature of {Words.Quantity(options.Highest, "degC")} of {context.Id} is not above its lowest of "
                + $"{Words.Quantity(options.Lowest, "degC")}");
        }

        return new PackTemperature(context.Require(options.Channel, "degC"), options.Lowest, options.Highest, context.Action);
    }
}

/// <summary>Its margin is a share of the whole span between the two limits.</summary>
internal sealed class PackTemperature(Channel channel, double lowest, double highest, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort TooHot = 1;
    public const ushort TooCold = 2;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        double above = (highest - entry.Maximum) / (highest - lowest);
        double below = (entry.Minimum - lowest) / (highest - lowest);
        if (!(entry.Maximum <= highest))
            return Object(TooHot, entry.Maximum, highest, above, entry.MaximumAt);
        if (!(entry.Minimum >= lowest))
            return Object(TooCold, entry.Minimum, lowest, below, entry.MinimumAt);
        return above <= below
            ? Proceed(entry.Maximum, highest, above, entry.MaximumAt)
            : Proceed(entry.Minimum, lowest, below, entry.MinimumAt);
    }

    protected override string Describe(in Demand demand)
    {
        string reading = Words.Reading(Channel, demand.Value, demand.Limit);
        return demand.Reason switch
        {
            0 => $"{reading} is within {Words.Quantity(lowest, "degC")} to {Words.Quantity(highest, "degC")}",
            TooHot => $"{reading} is above the highest of {Words.Quantity(demand.Limit, "degC")}; leave it alone and watch it",
            _ => $"{reading} is below the lowest of {Words.Quantity(demand.Limit, "degC")}; let it warm up",
        };
    }
}

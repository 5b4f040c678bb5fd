using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>under-voltage</c>.</summary>
public sealed class UnderVoltageOptions
{
    /// <summary>Channel of the voltage, in V. Default battery.voltage.</summary>
    [ChannelName, Meaning("Channel of the voltage.")]
    public string Channel { get; set; } = ChannelNames.BatteryVoltage;

    /// <summary>Lowest voltage allowed to last, in V, 0.1 to 100. Required.</summary>
    [Quantity("V", 0.1, 100), Meaning("Lowest voltage allowed to last.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which the voltage may sag below the limit without a break, in s, 0 to 60; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 60), Meaning("Time for which the voltage may sag below the limit without a break; 0 trips at once.")]
    public double For { get; set; }
}

/// <summary>Makes <c>under-voltage</c>.</summary>
public sealed class UnderVoltagePlugin : InterlockPlugin<UnderVoltageOptions>
{
    public override string Kind => "under-voltage";

    public override string Meaning => "The pack's voltage stays above its lowest allowed value, short sags excepted.";

    public override string Requirement => "SAF-017";

    protected override IInterlock Create(UnderVoltageOptions options, InterlockContext context) =>
        new UnderVoltage(context.Require(options.Channel, "V"), options.Limit, TimeSpan.FromSeconds(options.For), context.Action);
}

internal sealed class UnderVoltage(Channel channel, double limit, TimeSpan allowedFor, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort BelowLimit = 1;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        bool lasted = Lasting.Reached(!(entry.Minimum >= limit), entry.MinimumAt, input.Now, allowedFor, ref memory);
        double margin = Margin.Over(entry.Minimum, limit);
        return lasted
            ? Object(BelowLimit, entry.Minimum, limit, margin, entry.MinimumAt)
            : Proceed(entry.Minimum, limit, Margin.Allowed(margin), entry.MinimumAt);
    }

    protected override string Describe(in Demand demand)
    {
        string limitText = Words.Quantity(demand.Limit, "V");
        string reading = Words.Reading(Channel, demand.Value, demand.Limit);
        return demand.Reason switch
        {
            0 when demand.Value < demand.Limit =>
                $"{reading} is below the limit of {limitText}, which is allowed for less than {Words.Duration(allowedFor)}",
            0 => $"{reading} is above the limit of {limitText}",
            _ when allowedFor == TimeSpan.Zero => $"{reading} is below the limit of {limitText}",
            _ => $"{reading} has been below the limit of {limitText} for {Words.Duration(allowedFor)}",
        };
    }
}

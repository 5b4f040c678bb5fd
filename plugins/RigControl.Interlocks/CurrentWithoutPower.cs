using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>current-without-power</c>.</summary>
public sealed class CurrentWithoutPowerOptions
{
    /// <summary>Channel that reads 0 while the output power is off. Default output.power.</summary>
    [ChannelName, Meaning("Channel that reads 0 while the output power is off.")]
    public string Power { get; set; } = ChannelNames.OutputPower;

    /// <summary>Channel of the current, in A. Default battery.current.</summary>
    [ChannelName, Meaning("Channel of the current.")]
    public string Current { get; set; } = ChannelNames.BatteryCurrent;

    /// <summary>Highest current believed while the power is off, in either direction, in A, 0.001 to 100: the sensor's offset and noise. Required.</summary>
    [Quantity("A", 0.001, 100), Meaning("Highest current believed while the power is off, in either direction.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which more may flow after the power went off, in s, 0 to 10; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 10), Meaning("Time for which more may flow after the power went off; 0 trips at once.")]
    public double For { get; set; }
}

/// <summary>Makes <c>current-without-power</c>.</summary>
public sealed class CurrentWithoutPowerPlugin : InterlockPlugin<CurrentWithoutPowerOptions>
{
    public override string Kind => "current-without-power";

    public override string Meaning => "No current flows while the power reads off.";

    public override string Requirement => "SAF-055";

    public override bool AlwaysCutsPower => true;

    public override ResetPolicy Reset => ResetPolicy.Restart;

    protected override IInterlock Create(CurrentWithoutPowerOptions options, InterlockContext context) => new CurrentWithoutPower(
        context.Require(options.Power, "1"), context.Require(options.Current, "A"), options.Limit, TimeSpan.FromSeconds(options.For), context.Action);
}

/// <summary>Either the power is not off, or the current is not what the sensor says: neither may be relied upon until somebody has looked.</summary>
internal sealed class CurrentWithoutPower(Channel power, Channel current, double limit, TimeSpan allowedFor, DemandAction action)
    : PairInterlock(power, current, action)
{
    public const ushort Flows = 1;

    protected override Demand Judge(in ImageEntry power, in ImageEntry current, in InterlockInput input, ref InterlockMemory memory)
    {
        Extreme worst = Extreme.Of(current);
        bool off = Contact.Reads(power, 0);
        bool lasted = Lasting.Reached(off && !(worst.Size <= limit), input.Now, input.Now, allowedFor, ref memory);
        double margin = off ? Margin.Under(worst.Size, limit) : 1;
        return lasted
            ? Object(Flows, Second, worst.Value, limit, margin, worst.At)
            : Demand.Proceed(Second.Index, worst.Value, limit, Margin.Allowed(margin), worst.At);
    }

    protected override string Describe(in Demand demand)
    {
        string reading = Words.Reading(Second, Math.Abs(demand.Value), demand.Limit);
        return demand.Reason == 0
            ? "no current flows that the power does not explain"
            : $"{reading} flows although {First.Name} reads 0, where {Words.Quantity(demand.Limit, "A")} is the most; look at contactor and sensor";
    }
}

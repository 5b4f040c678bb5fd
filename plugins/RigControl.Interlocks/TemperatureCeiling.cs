using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>temperature-ceiling</c>.</summary>
public sealed class TemperatureCeilingOptions
{
    /// <summary>Channel of the temperature, in degC. Default motor.temperature.</summary>
    [ChannelName, Meaning("Channel of the temperature.")]
    public string Channel { get; set; } = ChannelNames.MotorTemperature;

    /// <summary>Highest temperature allowed, in degC, 1 to 500. Required.</summary>
    [Quantity("degC", 1, 500), Meaning("Highest temperature allowed.")]
    public double Ceiling { get; set; } = double.NaN;

    /// <summary>
    /// Largest rise allowed within <see cref="Window"/>, in K, 0.1 to 200: a difference, so a rise written in degC turns
    /// into more than 200 K and is found out. Required.
    /// </summary>
    [Quantity("K", 0.1, 200), Meaning("Largest rise allowed within the window.")]
    public double Rise { get; set; } = double.NaN;

    /// <summary>Time over which the rise is looked for, in s, 0.05 to 600; at any moment it looks back this far and at most twice as far. Required.</summary>
    [Quantity("s", 0.05, 600), Meaning("Time over which the rise is looked for.")]
    public double Window { get; set; } = double.NaN;
}

/// <summary>Makes <c>temperature-ceiling</c>.</summary>
public sealed class TemperatureCeilingPlugin : InterlockPlugin<TemperatureCeilingOptions>
{
    public override string Kind => "temperature-ceiling";

    public override string Meaning => "A temperature stays below its ceiling and does not rise too fast.";

    public override string Requirement => "SAF-014";

    protected override IInterlock Create(TemperatureCeilingOptions options, InterlockContext context) => new TemperatureCeiling(
        context.Require(options.Channel, "degC"), options.Ceiling, options.Rise, TimeSpan.FromSeconds(options.Window), context.Action);
}

/// <summary>
/// The rise is the highest reading since the last scan less the lowest of this window and the one before: every rise
/// within the window is seen, whenever it begins, and one that takes longer than two windows is none.
/// </summary>
internal sealed class TemperatureCeiling(Channel channel, double ceiling, double allowedRise, TimeSpan window, DemandAction action)
    : ChannelInterlock(channel, action)
{
    public const ushort TooHot = 1;
    public const ushort TooFast = 2;

    private const long Started = 1;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        double rise = entry.Maximum - LowestBefore(entry, input.Now, ref memory);
        double margin = Margin.Under(entry.Maximum, ceiling);
        if (!(entry.Maximum <= ceiling))
            return Object(TooHot, entry.Maximum, ceiling, margin, entry.MaximumAt);
        double riseMargin = Margin.Under(rise, allowedRise);
        return rise <= allowedRise
            ? Proceed(entry.Maximum, ceiling, Math.Min(margin, riseMargin), entry.MaximumAt)
            : Object(TooFast, rise, allowedRise, riseMargin, entry.MaximumAt);
    }

    protected override string Describe(in Demand demand) => demand.Reason switch
    {
        0 => $"{Words.Reading(Channel, demand.Value, demand.Limit)} is within the ceiling of {Words.Quantity(demand.Limit, "degC")}",
        TooFast => $"{Words.Name(Channel)} rose by {Words.Apart(demand.Value, demand.Limit)} K within {Words.Duration(window + window)}; "
            + $"{Words.Quantity(demand.Limit, "K")} in {Words.Duration(window)} is allowed",
        _ => $"{Words.Reading(Channel, demand.Value, demand.Limit)} is above the ceiling of {Words.Quantity(demand.Limit, "degC")}",
    };

    // A holds the lowest reading of the window before, B that of the current one, Since its start.
    private double LowestBefore(in ImageEntry entry, TimeSpan now, ref InterlockMemory memory)
    {
        if (memory.Flags != Started || now - memory.Since >= window + window)
            memory = new InterlockMemory { A = entry.Maximum, B = entry.Maximum, Since = now, Flags = Started };
        else if (now - memory.Since >= window)
            (memory.A, memory.B, memory.Since) = (memory.B, entry.Maximum, now);
        // A low reading that came after the high one is a fall, and counts from the next scan on.
        double here = entry.MinimumAt <= entry.MaximumAt ? entry.Minimum : entry.Maximum;
        double lowest = Math.Min(here, Math.Min(memory.A, memory.B));
        memory.B = Math.Min(memory.B, entry.Minimum);
        return lowest;
    }
}

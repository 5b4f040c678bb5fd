using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>stale-reading</c>.</summary>
public sealed class StaleReadingOptions
{
    /// <summary>Channel whose readings must keep coming, in any unit. Required.</summary>
    [ChannelName, Meaning("Channel whose readings must keep coming.")]
    public string Channel { get; set; } = "";

    /// <summary>Highest age of the latest reading, in s, 0.001 to 60; useful only below the age at which the channel itself turns Bad. Required.</summary>
    [Quantity("s", 0.001, 60), Meaning("Highest age of the latest reading.")]
    public double MaximumAge { get; set; } = double.NaN;
}

/// <summary>Makes <c>stale-reading</c>.</summary>
public sealed class StaleReadingPlugin : InterlockPlugin<StaleReadingOptions>
{
    public override string Kind => "stale-reading";

    public override string Meaning => "A channel's readings keep coming.";

    public override string Requirement => "SAF-018";

    protected override IInterlock Create(StaleReadingOptions options, InterlockContext context) =>
        new StaleReading(context.Require(options.Channel), TimeSpan.FromSeconds(options.MaximumAge), context.Action);
}

/// <summary>Value and limit of its demands are seconds, whatever the channel's unit.</summary>
internal sealed class StaleReading(Channel channel, TimeSpan maximumAge, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort TooOld = 1;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        double age = entry.Age.TotalSeconds;
        double limit = maximumAge.TotalSeconds;
        double margin = Margin.Under(age, limit);
        if (entry.Age >= TimeSpan.Zero && entry.Age <= maximumAge)
            return Proceed(age, limit, margin, input.Now - entry.Age);
        // It showed when the reading grew too old. A reading from the future is as little proof as an old one.
        TimeSpan overdue = entry.Age > maximumAge ? entry.Age - maximumAge : TimeSpan.Zero;
        return Object(TooOld, age, limit, Math.Min(margin, 0), input.Now - overdue);
    }

    protected override string Describe(in Demand demand)
    {
        string limit = Words.Quantity(demand.Limit, "s");
        return demand.Reason == 0
            ? $"{Words.Name(Channel)} was read within the last {limit}"
            : $"the latest reading of {Words.Name(Channel)} is {Words.Apart(demand.Value, demand.Limit)} s old; {limit} is allowed";
    }
}

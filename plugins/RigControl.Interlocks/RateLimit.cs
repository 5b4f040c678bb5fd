using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>rate-limit</c>.</summary>
public sealed class RateLimitOptions
{
    /// <summary>Channel whose readings may not change too fast, in any unit. Required.</summary>
    [ChannelName, Meaning("Channel whose readings may not change too fast.")]
    public string Channel { get; set; } = "";

    /// <summary>
    /// Change allowed at once, noise included, as a plain number in the channel's unit, 0.000001 to 1000000000, and once
    /// more in every <see cref="Within"/>. Required.
    /// </summary>
    [Quantity("1", 1e-6, 1e9), Meaning("Change allowed at once, in the channel's unit, and once more in every time given.")]
    public double Change { get; set; } = double.NaN;

    /// <summary>Time in which as much change again is allowed, in s, 0.001 to 3600. Required.</summary>
    [Quantity("s", 0.001, 3600), Meaning("Time in which as much change again is allowed.")]
    public double Within { get; set; } = double.NaN;
}

/// <summary>Makes <c>rate-limit</c>.</summary>
public sealed class RateLimitPlugin : InterlockPlugin<RateLimitOptions>
{
    public override string Kind => "rate-limit";

    public override string Meaning => "A channel's readings change no faster than allowed, up or down.";

    public override string Requirement => "SAF-051";

    protected override IInterlock Create(RateLimitOptions options, InterlockContext context) =>
        new RateLimit(context.Require(options.Channel), options.Change, TimeSpan.FromSeconds(options.Within), context.Action);
}

/// <summary>
/// Between any two readings, however far apart, the change may be at most the one allowed times one plus the time between
/// them over the time given. Two bounds that follow the readings no faster than that remember all readings before.
/// </summary>
internal sealed class RateLimit(Channel channel, double change, TimeSpan within, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort Rises = 1;
    public const ushort Falls = 2;

    private const long Started = 1;

    private readonly double _perSecond = change / within.TotalSeconds;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        InOrder readings = InOrder.Of(entry);
        if (memory.Flags != Started)
        {
            memory = new InterlockMemory
            {
                A = readings.First.Value, B = readings.First.Value, Flags = Started, Since = Stamp.Between(TimeSpan.Zero, readings.First.At, input.Now),
            };
        }

        Demand first = Follow(readings.First, input.Now, ref memory);
        Demand then = Follow(readings.Then, input.Now, ref memory);
        return then.Margin <= first.Margin ? then : first;
    }

    protected override string Describe(in Demand demand)
    {
        string unit = Channel.Declaration.Unit;
        string allowed = $"{Words.Quantity(change, unit)} at once and as much again every {Words.Duration(within)}";
        string by = Words.Quantity(demand.Value, demand.Limit, unit);
        return demand.Reason switch
        {
            0 => $"{Words.Name(Channel)} changes no faster than {allowed}",
            Rises => $"{Words.Name(Channel)} rises too fast: by {by}, and {allowed} is allowed",
            _ => $"{Words.Name(Channel)} falls too fast: by {by}, and {allowed} is allowed",
        };
    }

    // A is how high a reading counts as no rise, B how low it counts as no fall; both wander towards the readings.
    private Demand Follow(Extreme reading, TimeSpan now, ref InterlockMemory memory)
    {
        TimeSpan at = Stamp.Between(memory.Since, reading.At, now);
        double wander = _perSecond * (at - memory.Since).TotalSeconds;
        double rise = reading.Value - (memory.A + wander);
        double fall = memory.B - wander - reading.Value;
        memory.A = Math.Min(memory.A + wander, reading.Value);
        memory.B = Math.Max(memory.B - wander, reading.Value);
        memory.Since = at;
        double worst = Math.Max(rise, fall);
        double margin = Margin.Under(worst, change);
        return worst <= change
            ? Proceed(worst, change, margin, at)
            : Object(rise > fall ? Rises : Falls, worst, change, margin, at);
    }
}

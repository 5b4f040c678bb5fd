using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>readings-agree</c>.</summary>
public sealed class ReadingsAgreeOptions
{
    /// <summary>One channel, in any unit. Required.</summary>
    [ChannelName, Meaning("One channel.")]
    public string First { get; set; } = "";

    /// <summary>Another channel that reads the same thing in the same unit. Required.</summary>
    [ChannelName, Meaning("Another channel that reads the same thing in the same unit.")]
    public string Second { get; set; } = "";

    /// <summary>Largest difference allowed to last, as a plain number in the channels' unit, 0.000001 to 1000000000. Required.</summary>
    [Quantity("1", 1e-6, 1e9), Meaning("Largest difference allowed to last, in the channels' unit.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which they may differ by more without a break, in s, 0 to 60; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 60), Meaning("Time for which they may differ by more without a break; 0 trips at once.")]
    public double For { get; set; }
}

/// <summary>Makes <c>readings-agree</c>.</summary>
public sealed class ReadingsAgreePlugin : InterlockPlugin<ReadingsAgreeOptions>
{
    public override string Kind => "readings-agree";

    public override string Meaning => "Two channels that read the same thing agree.";

    public override string Requirement => "SAF-056";

    protected override IInterlock Create(ReadingsAgreeOptions options, InterlockContext context)
    {
        if (options.First == options.Second)
            throw new OptionException($"{context.Id} needs two channels, but both are {options.First}");
        Channel first = context.Require(options.First);
        return new ReadingsAgree(
            first, context.Require(options.Second, first.Declaration.Unit), options.Limit, TimeSpan.FromSeconds(options.For), context.Action);
    }
}

/// <summary>Holds the farthest readings of the two since the last scan against each other: which of them is right it does not know.</summary>
internal sealed class ReadingsAgree(Channel first, Channel second, double limit, TimeSpan allowedFor, DemandAction action)
    : PairInterlock(first, second, action)
{
    public const ushort Differ = 1;

    protected override Demand Judge(in ImageEntry first, in ImageEntry second, in InterlockInput input, ref InterlockMemory memory)
    {
        bool firstAbove = first.Maximum - second.Minimum >= second.Maximum - first.Minimum;
        double difference = firstAbove ? first.Maximum - second.Minimum : second.Maximum - first.Minimum;
        TimeSpan at = firstAbove ? Later(first.MaximumAt, second.MinimumAt) : Later(second.MaximumAt, first.MinimumAt);
        bool lasted = Lasting.Reached(!(difference <= limit), at, input.Now, allowedFor, ref memory);
        double margin = Margin.Under(difference, limit);
        return lasted
            ? Object(Differ, First, difference, limit, margin, at)
            : Demand.Proceed(First.Index, difference, limit, Margin.Allowed(margin), at);
    }

    protected override string Describe(in Demand demand)
    {
        string unit = First.Declaration.Unit;
        string differ = $"{First.Name} and {Second.Name} differ by {Words.Quantity(demand.Value, demand.Limit, unit)}";
        string allowed = Words.Quantity(demand.Limit, unit);
        return demand.Reason switch
        {
            0 when demand.Value > demand.Limit => $"{differ}, more than {allowed}, which is allowed for less than {Words.Duration(allowedFor)}",
            0 => $"{differ}; {allowed} is allowed",
            _ when allowedFor == TimeSpan.Zero => $"{differ}, and {allowed} is allowed",
            _ => $"{differ} and have differed by more than {allowed} for {Words.Duration(allowedFor)}",
        };
    }

    private static TimeSpan Later(TimeSpan a, TimeSpan b) => a > b ? a : b;
}

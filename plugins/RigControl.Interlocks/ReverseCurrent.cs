using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>reverse-current</c>.</summary>
public sealed class ReverseCurrentOptions
{
    /// <summary>Channel of the current out of the pack, in A; what flows into it reads negative. Default battery.current.</summary>
    [ChannelName, Meaning("Channel of the current out of the pack; what flows into it reads negative.")]
    public string Channel { get; set; } = ChannelNames.BatteryCurrent;

    /// <summary>Highest current into the pack allowed to last, in A, 0.001 to 1000. Required.</summary>
    [Quantity("A", 0.001, 1000), Meaning("Highest current into the pack allowed to last.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which more may flow without a break, in s, 0 to 60; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 60), Meaning("Time for which more may flow without a break; 0 trips at once.")]
    public double For { get; set; }
}

/// <summary>Makes <c>reverse-current</c>.</summary>
public sealed class ReverseCurrentPlugin : InterlockPlugin<ReverseCurrentOptions>
{
    public override string Kind => "reverse-current";

    public override string Meaning => "No more current than allowed flows back into the pack, as a braking controller drives it.";

    public override string Requirement => "SAF-059";

    protected override IInterlock Create(ReverseCurrentOptions options, InterlockContext context) =>
        new ReverseCurrent(context.Require(options.Channel, "A"), options.Limit, TimeSpan.FromSeconds(options.For), context.Action);
}

/// <summary>Value of its demands is the current into the pack, so with the sign turned.</summary>
internal sealed class ReverseCurrent(Channel channel, double limit, TimeSpan allowedFor, DemandAction action)
    : CeilingInterlock(channel, limit, allowedFor, action)
{
    private readonly double _limit = limit;

    protected override Extreme Worst(in ImageEntry entry) => new(0 - entry.Minimum, entry.MinimumAt);

    protected override string Name(double value) => value > 0
        ? $"{Words.Reading(Channel, value, _limit)} backwards"
        : $"{Words.Name(Channel)}, which does not flow backwards,";
}

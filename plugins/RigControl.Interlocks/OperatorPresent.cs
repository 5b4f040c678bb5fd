using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>operator-present</c>.</summary>
public sealed class OperatorPresentOptions
{
    /// <summary>Channel that reads 1 while somebody can act at the bench. Default operator.present, which the host writes.</summary>
    [ChannelName, Meaning("Channel that reads 1 while somebody can act at the bench.")]
    public string Channel { get; set; } = ChannelNames.OperatorPresent;
}

/// <summary>Makes <c>operator-present</c>.</summary>
public sealed class OperatorPresentPlugin : InterlockPlugin<OperatorPresentOptions>
{
    public override string Kind => "operator-present";

    public override string Meaning => "Somebody is at the bench who can press stop.";

    public override string Requirement => "SAF-062";

    public override DemandAction Action => DemandAction.StopOutput;

    protected override IInterlock Create(OperatorPresentOptions options, InterlockContext context) =>
        new OperatorPresent(context.Require(options.Channel, "1"), context.Action);
}

internal sealed class OperatorPresent(Channel channel, DemandAction action) : ContactInterlock(channel, action)
{
    protected override string WhenMade => "an operator is at the bench";

    protected override string WhenOpen => "no operator is at the bench";
}

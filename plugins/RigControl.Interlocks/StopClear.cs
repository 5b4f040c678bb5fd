using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>stop-clear</c>.</summary>
public sealed class StopClearOptions
{
    /// <summary>Channel that reads 1 while the stop circuit is closed. Default stop.clear.</summary>
    [ChannelName, Meaning("Channel that reads 1 while the stop circuit is closed.")]
    public string Channel { get; set; } = ChannelNames.StopClear;
}

/// <summary>Makes <c>stop-clear</c>.</summary>
public sealed class StopClearPlugin : InterlockPlugin<StopClearOptions>
{
    public override string Kind => "stop-clear";

    public override string Meaning => "No stop is pressed and the stop circuit is whole.";

    public override string Requirement => "SAF-012";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(StopClearOptions options, InterlockContext context) =>
        new StopClear(context.Require(options.Channel, "1"), context.Action);
}

internal sealed class StopClear(Channel channel, DemandAction action) : ContactInterlock(channel, action)
{
    protected override string WhenMade => "the stop circuit is closed";

    protected override string WhenOpen => "a stop is pressed or its wire is broken";
}

using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>recorder-behind</c>.</summary>
public sealed class RecorderBehindOptions
{
    /// <summary>Channel of the recorder's queue in use, in %. Default recorder.backlog, which the host writes.</summary>
    [ChannelName, Meaning("Channel of the recorder's queue in use.")]
    public string Channel { get; set; } = ChannelNames.RecorderBacklog;

    /// <summary>Largest share of the queue in use that may last, in %, 1 to 100; the host itself stops at half. Required.</summary>
    [Quantity("%", 1, 100), Meaning("Largest share of the queue in use that may last; the host itself stops at half.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which more may wait without a break, in s, 0 to 60; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 60), Meaning("Time for which more may wait without a break; 0 trips at once.")]
    public double For { get; set; }
}

/// <summary>Makes <c>recorder-behind</c>.</summary>
public sealed class RecorderBehindPlugin : InterlockPlugin<RecorderBehindOptions>
{
    public override string Kind => "recorder-behind";

    public override string Meaning => "The record keeps up with the run.";

    public override string Requirement => "SAF-063";

    public override DemandAction Action => DemandAction.StopOutput;

    protected override IInterlock Create(RecorderBehindOptions options, InterlockContext context) =>
        new RecorderBehind(context.Require(options.Channel, "%"), options.Limit, TimeSpan.FromSeconds(options.For), context.Action);
}

internal sealed class RecorderBehind(Channel channel, double limit, TimeSpan allowedFor, DemandAction action)
    : CeilingInterlock(channel, limit, allowedFor, action)
{
    protected override Extreme Worst(in ImageEntry entry) => new(entry.Maximum, entry.MaximumAt);
}

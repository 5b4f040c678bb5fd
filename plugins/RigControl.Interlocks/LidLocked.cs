using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>lid-locked</c>.</summary>
public sealed class LidLockedOptions
{
    /// <summary>Channel that reads 1 while the bolt is home. Default enclosure.lock.</summary>
    [ChannelName, Meaning("Channel that reads 1 while the bolt is home.")]
    public string Channel { get; set; } = ChannelNames.EnclosureLock;
}

/// <summary>Makes <c>lid-locked</c>.</summary>
public sealed class LidLockedPlugin : InterlockPlugin<LidLockedOptions>
{
    public override string Kind => "lid-locked";

    public override string Meaning => "The lid's bolt is home, so that nobody can reach in before standstill.";

    public override string Requirement => "SAF-011";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(LidLockedOptions options, InterlockContext context) =>
        new LidLocked(context.Require(options.Channel, "1"), context.Action);
}

/// <summary>
/// In Idle the lid may be unlocked: there it only refuses the start. Everywhere else the bolt must be home, SafeStop
/// included, where a rotor may still be running down.
/// </summary>
internal sealed class LidLocked(Channel channel, DemandAction action) : ContactInterlock(channel, action)
{
    protected override string WhenMade => "the lid is locked";

    protected override string WhenOpen => "the lid is not locked";

    protected override DemandAction ActionIn(RigState state) => state == RigState.Idle ? DemandAction.Refuse : Action;
}

using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>failsafe-confirmed</c>.</summary>
public sealed class FailsafeConfirmedOptions
{
    /// <summary>Channel that reads 1 once the failsafe has been confirmed for this session. Default failsafe.confirmed.</summary>
    [ChannelName, Meaning("Channel that reads 1 once the failsafe has been confirmed for this session.")]
    public string Channel { get; set; } = ChannelNames.FailsafeConfirmed;
}

/// <summary>Makes <c>failsafe-confirmed</c>.</summary>
public sealed class FailsafeConfirmedPlugin : InterlockPlugin<FailsafeConfirmedOptions>
{
    public override string Kind => "failsafe-confirmed";

    public override string Meaning => "The failsafe has been confirmed for this session.";

    public override string Requirement => "SAF-013";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(FailsafeConfirmedOptions options, InterlockContext context) =>
        new FailsafeConfirmed(context.Require(options.Channel, "1"), context.Action);
}

internal sealed class FailsafeConfirmed(Channel channel, DemandAction action) : ContactInterlock(channel, action)
{
    protected override string WhenMade => "the failsafe has been confirmed";

    protected override string WhenOpen => "the failsafe has not been confirmed in this session";
}

using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>power-follows</c>.</summary>
public sealed class PowerFollowsOptions
{
    /// <summary>Channel of the contactor's mirror contact: 1 while the power is on, 0 while it is off. Default output.power.</summary>
    [ChannelName, Meaning("Channel of the contactor's mirror contact: 1 while the power is on, 0 while it is off.")]
    public string Channel { get; set; } = ChannelNames.OutputPower;

    /// <summary>Time in which the contactor must follow, in s, 0.005 to 5. Required.</summary>
    [Quantity("s", 0.005, 5), Meaning("Time in which the contactor must follow.")]
    public double Within { get; set; } = double.NaN;
}

/// <summary>Makes <c>power-follows</c>.</summary>
public sealed class PowerFollowsPlugin : InterlockPlugin<PowerFollowsOptions>
{
    public override string Kind => "power-follows";

    public override string Meaning => "The contactor closes and opens when it is told to.";

    public override string Requirement => "SAF-061";

    public override bool AlwaysCutsPower => true;

    public override ResetPolicy Reset => ResetPolicy.Restart;

    protected override IInterlock Create(PowerFollowsOptions options, InterlockContext context) => new PowerFollows(
        context.Require(options.Channel, "1"), TimeSpan.FromSeconds(options.Within), context.Article.StoppingTime, context.Action);
}

/// <summary>
/// From arming to coast-down the power must be on, otherwise off; in safe-stop the article's stopping time is granted besides,
/// since a stop that did not cut the power keeps it for so long. A weld wants somebody to look before the host starts again.
/// </summary>
internal sealed class PowerFollows(Channel channel, TimeSpan within, TimeSpan stoppingTime, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort DoesNotFollow = 1;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        bool powered = input.State is RigState.Arming or RigState.SpinUp or RigState.Hold or RigState.CoastDown && !input.Unpowered;
        double demanded = powered ? 1 : 0;
        // B is what was demanded before: a new demand has its whole time.
        if (memory.B != demanded)
            memory = new InterlockMemory { B = demanded };
        bool follows = Contact.Reads(entry, demanded);
        TimeSpan allowed = input.State == RigState.SafeStop ? within + stoppingTime : within;
        bool lasted = Lasting.Reached(!follows, input.Now, input.Now, allowed, ref memory);
        memory.B = demanded;
        double read = Contact.Other(entry, demanded);
        TimeSpan at = Contact.LeftAt(entry, demanded);
        return lasted ? Object(DoesNotFollow, read, demanded, 0, at) : Proceed(read, demanded, follows ? 1 : 0, at);
    }

    protected override string Describe(in Demand demand) => (demand.Reason, demand.Limit) switch
    {
        (0, 1) => "the power is on as demanded, or has just been asked for",
        (0, _) => "the power is off as demanded, or has just been taken away",
        (_, 1) => $"the power did not come on within {Words.Duration(within)}: {Channel.Name} reads {Words.Number(demand.Value)}, not 1; look at contactor and its coil circuit",
        _ => $"the power did not go off within {Words.Duration(within)}: {Channel.Name} reads {Words.Number(demand.Value)}, not 0; disconnect the pack and look at the contactor",
    };
}

using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>key-turned</c>.</summary>
public sealed class KeyTurnedOptions
{
    /// <summary>Channel that reads 1 while the arm key is closed. Default board.key.</summary>
    [ChannelName, Meaning("Channel that reads 1 while the arm key is closed.")]
    public string Channel { get; set; } = ChannelNames.ArmKey;
}

/// <summary>Makes <c>key-turned</c>.</summary>
public sealed class KeyTurnedPlugin : InterlockPlugin<KeyTurnedOptions>
{
    public override string Kind => "key-turned";

    public override string Meaning => "The arm key was closed after the latest reset, and is closed still.";

    public override string Requirement => "SAF-087";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(KeyTurnedOptions options, InterlockContext context) =>
        new KeyTurned(context.Require(options.Channel, "1"), context.Action);
}

/// <summary>
/// A key that is closed, or bridged, before the reset says nothing of now: it has to be seen open in Idle, and then closed.
/// Where nothing is energised it only refuses the start; from arming on, a key that opens stops.
/// </summary>
internal sealed class KeyTurned(Channel channel, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort Open = 1;
    public const ushort Stale = 2;

    private const long SeenOpen = 1;
    private const long ClosedAfresh = 2;
    private const double Closed = 1;

    // Before any judgement: what could not be read from a trip to its reset would else be remembered from before it.
    public override Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        if (input.State == RigState.SafeStop || Unusable.Is(input[Channel.Index]))
            memory.Flags = 0;
        return base.Evaluate(input, ref memory);
    }

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        bool closed = Contact.Reads(entry, Closed);
        memory.Flags = input.State switch
        {
            RigState.Idle when !closed => SeenOpen,
            _ when !closed => 0,
            _ => memory.Flags == 0 ? 0 : ClosedAfresh,
        };
        return memory.Flags == ClosedAfresh
            ? Proceed(Closed, Closed, 1, Contact.LeftAt(entry, Closed))
            : Object(input.State, closed, entry);
    }

    protected override string Describe(in Demand demand) => demand.Reason switch
    {
        0 => "the key was closed after the reset",
        Open => $"the key is open: {Channel.Name} reads {Words.Number(demand.Value)}, not 1; close it",
        _ => "the key has not been opened and closed since the reset: open it, then close it",
    };

    private Demand Object(RigState state, bool closed, in ImageEntry entry) => Demand.Object(
        state is RigState.Idle or RigState.SafeStop ? DemandAction.Refuse : Action, closed ? Stale : Open, Channel.Index,
        closed ? Closed : Contact.Other(entry, Closed), Closed, 0, Contact.LeftAt(entry, Closed));
}

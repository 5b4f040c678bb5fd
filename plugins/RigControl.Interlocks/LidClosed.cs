using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>lid-closed</c>.</summary>
public sealed class LidClosedOptions
{
    /// <summary>Channel of the contact that reads 1 while the lid is closed. Default enclosure.lid.</summary>
    [ChannelName, Meaning("Channel of the contact that reads 1 while the lid is closed.")]
    public string ClosedContact { get; set; } = ChannelNames.EnclosureLid;

    /// <summary>Channel of the contact that reads 1 while the lid is open. Default enclosure.lid-open.</summary>
    [ChannelName, Meaning("Channel of the contact that reads 1 while the lid is open.")]
    public string OpenContact { get; set; } = ChannelNames.EnclosureLidOpen;

    /// <summary>Longest time for which the two contacts may contradict each other, in s, 0.005 to 2. Default 0.1 s.</summary>
    [Quantity("s", 0.005, 2), Meaning("Longest time for which the two contacts may contradict each other.")]
    public double DiscrepancyTime { get; set; } = 0.1;
}

/// <summary>Makes <c>lid-closed</c>.</summary>
public sealed class LidClosedPlugin : InterlockPlugin<LidClosedOptions>
{
    public override string Kind => "lid-closed";

    public override string Meaning => "The enclosure's lid is closed, proven by two antivalent contacts.";

    public override string Requirement => "SAF-010";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(LidClosedOptions options, InterlockContext context)
    {
        if (options.ClosedContact == options.OpenContact)
            throw new OptionException($"{context.Id} needs two contacts, but both of its channels are {options.OpenContact}");
        return new LidClosed(
            context.Require(options.ClosedContact, "1"), context.Require(options.OpenContact, "1"),
            TimeSpan.FromSeconds(options.DiscrepancyTime), context.Action);
    }
}

/// <summary>
/// An open lid objects at once: one contact is enough. Contacts that contradict each other for too long (a weld, a torn
/// wire) are remembered, and a lid that looks closed again is not believed until both contacts were seen to agree on open
/// and then on closed. A restart of the host forgets this; the verification of the failsafe moves the lid in any case.
/// </summary>
internal sealed class LidClosed(Channel closed, Channel open, TimeSpan discrepancyTime, DemandAction action) : IInterlock
{
    public const ushort NotClosed = 1;
    public const ushort Contradiction = 2;

    private const long Disagreeing = 1;
    private const long Faulty = 2;
    private const long SeenOpen = 4;

    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        ref readonly ImageEntry closes = ref input[closed.Index];
        ref readonly ImageEntry opens = ref input[open.Index];
        if (Unusable.Is(closes))
            return Unusable.Object(action, closed, closes, input.Now);
        if (Unusable.Is(opens))
            return Unusable.Object(action, open, opens, input.Now);
        Compare(closes.Last, opens.Last, input.Now, ref memory);
        if ((memory.Flags & Faulty) != 0)
            return Demand.Object(action, Contradiction, closed.Index, closes.Last, 1, 0, memory.Since);
        if (!Contact.Reads(closes, 1))
            return Open(closed, closes, 1);
        return Contact.Reads(opens, 0) ? Demand.Proceed(closed.Index, 1, 1, 1, closes.MinimumAt) : Open(open, opens, 0);
    }

    public string Explain(in Demand demand)
    {
        Channel channel = demand.Channel == open.Index ? open : closed;
        return Unusable.Explain(channel, demand) ?? demand.Reason switch
        {
            0 => "the lid is closed",
            Contradiction => $"the two lid contacts contradicted each other for longer than {Words.Duration(discrepancyTime)}; "
                + "look at contacts and wiring, then open the lid fully and close it again",
            _ => $"the lid is open: {channel.Name} reads {Words.Number(demand.Value)}, not {Words.Number(demand.Limit)}",
        };
    }

    private Demand Open(Channel channel, in ImageEntry entry, double whenClosed) => Demand.Object(
        action, NotClosed, channel.Index, Contact.Other(entry, whenClosed), whenClosed, 0, Contact.LeftAt(entry, whenClosed));

    private void Compare(double closes, double opens, TimeSpan now, ref InterlockMemory memory)
    {
        bool agreeOnClosed = closes == 1 && opens == 0;
        bool agreeOnOpen = closes == 0 && opens == 1;
        if (!agreeOnClosed && !agreeOnOpen)
            Disagree(now, ref memory);
        else if ((memory.Flags & Faulty) == 0 || (agreeOnClosed && (memory.Flags & SeenOpen) != 0))
            memory = default;
        else
            memory.Flags = agreeOnOpen ? Faulty | SeenOpen : memory.Flags & ~Disagreeing;
    }

    private void Disagree(TimeSpan now, ref InterlockMemory memory)
    {
        if ((memory.Flags & Disagreeing) == 0)
            (memory.Flags, memory.Since) = (memory.Flags | Disagreeing, now);
        else if (now - memory.Since > discrepancyTime)
            memory.Flags = Disagreeing | Faulty;
    }
}

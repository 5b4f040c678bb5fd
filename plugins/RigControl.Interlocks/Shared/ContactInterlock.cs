using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>Objects unless a contact has read 1 all the time since the last scan.</summary>
internal abstract class ContactInterlock(Channel channel, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort Open = 1;

    private const double Made = 1;

    /// <summary>What it means that the contact reads 1, as the first half of a sentence.</summary>
    protected abstract string WhenMade { get; }

    /// <summary>What it means that the contact reads anything else, as the first half of a sentence.</summary>
    protected abstract string WhenOpen { get; }

    /// <summary>What is asked for in a state while the contact is open.</summary>
    protected virtual DemandAction ActionIn(RigState state) => Action;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        TimeSpan shownAt = Contact.LeftAt(entry, Made);
        return Contact.Reads(entry, Made)
            ? Proceed(Made, Made, 1, shownAt)
            : Demand.Object(ActionIn(input.State), Open, Channel.Index, Contact.Other(entry, Made), Made, 0, shownAt);
    }

    protected override string Describe(in Demand demand) => demand.Reason == 0
        ? WhenMade
        : $"{WhenOpen}: {Channel.Name} reads {Words.Number(demand.Value)}, not 1";
}

using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>An interlock on one channel. A reading that cannot be used objects here, before any judgement, so that none can forget it.</summary>
internal abstract class ChannelInterlock(Channel channel, DemandAction action) : IInterlock
{
    protected Channel Channel { get; } = channel;

    protected DemandAction Action { get; } = action;

    public virtual Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        ref readonly ImageEntry entry = ref input[Channel.Index];
        // The memory is left alone: a duration that runs while the reading is unusable runs on.
        return Unusable.Is(entry) ? Unusable.Object(Action, Channel, entry, input.Now) : Judge(entry, input, ref memory);
    }

    public string Explain(in Demand demand) => Unusable.Explain(Channel, demand) ?? Describe(demand);

    /// <summary>Decides on an entry whose numbers are finite and in order.</summary>
    protected abstract Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory);

    /// <summary>The sentence for a demand that <see cref="Judge"/> made.</summary>
    protected abstract string Describe(in Demand demand);

    protected Demand Object(ushort reason, double value, double limit, double margin, TimeSpan shownAt) =>
        Demand.Object(Action, reason, Channel.Index, value, limit, margin, shownAt);

    protected Demand Proceed(double value, double limit, double margin, TimeSpan shownAt) =>
        Demand.Proceed(Channel.Index, value, limit, margin, shownAt);
}

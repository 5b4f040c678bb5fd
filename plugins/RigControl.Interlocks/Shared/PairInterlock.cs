using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>An interlock on two channels. A reading of either that cannot be used objects here, before any judgement.</summary>
internal abstract class PairInterlock(Channel first, Channel second, DemandAction action) : IInterlock
{
    protected Channel First { get; } = first;

    protected Channel Second { get; } = second;

    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        ref readonly ImageEntry one = ref input[First.Index];
        ref readonly ImageEntry other = ref input[Second.Index];
        if (Unusable.Is(one))
            return Unusable.Object(action, First, one, input.Now);
        return Unusable.Is(other) ? Unusable.Object(action, Second, other, input.Now) : Judge(one, other, input, ref memory);
    }

    public string Explain(in Demand demand) =>
        Unusable.Explain(demand.Channel == Second.Index ? Second : First, demand) ?? Describe(demand);

    /// <summary>Decides on two entries whose numbers are finite and in order.</summary>
    protected abstract Demand Judge(in ImageEntry first, in ImageEntry second, in InterlockInput input, ref InterlockMemory memory);

    /// <summary>The sentence for a demand that <see cref="Judge"/> made.</summary>
    protected abstract string Describe(in Demand demand);

    protected Demand Object(ushort reason, Channel channel, double value, double limit, double margin, TimeSpan shownAt) =>
        Demand.Object(action, reason, channel.Index, value, limit, margin, shownAt);
}

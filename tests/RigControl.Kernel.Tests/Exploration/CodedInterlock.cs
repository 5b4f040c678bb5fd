namespace RigControl.Kernel.Tests.Exploration;

/// <summary>Proceeds while its channel reads 1, refuses while it reads 2, and asks for its action otherwise; Bad cuts the power.</summary>
internal sealed class CodedInterlock(int channel, DemandAction action) : IInterlock
{
    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        ref readonly ImageEntry entry = ref input[channel];
        if (entry.IsUsable && entry.Minimum == 1)
            return Demand.Proceed(channel, 1, 1, 1, TimeSpan.Zero);
        DemandAction asked = !entry.IsUsable ? DemandAction.CutPower : entry.Minimum == 2 ? DemandAction.Refuse : action;
        return Demand.Object(asked, 1, channel, 0, 1, 0, TimeSpan.Zero);
    }

    public string Explain(in Demand demand) => "coded";
}

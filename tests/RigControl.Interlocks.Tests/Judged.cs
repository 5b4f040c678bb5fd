using RigControl.Model.Rig;

namespace RigControl.Interlocks.Tests;

/// <summary>What a demand must look like to be one or the other.</summary>
internal static class Judged
{
    public static Demand Proceeds(this Demand demand)
    {
        Assert.Equal(DemandAction.Proceed, demand.Action);
        Assert.Equal(0, demand.Reason);
        Assert.InRange(demand.Margin, 0, 1);
        return demand;
    }

    public static Demand Objects(this Demand demand, DemandAction action = DemandAction.CutPower)
    {
        Assert.Equal(action, demand.Action);
        Assert.NotEqual(0, demand.Reason);
        Assert.True(demand.Margin <= 0, $"margin {demand.Margin} of an objection");
        return demand;
    }
}

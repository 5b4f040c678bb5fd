namespace RigControl.Campaigns.Checkers;

internal sealed class AbandonedIsNotRun : Checker
{
    public override string Promise => "a bench that its operator left is not driven";

    protected override bool Holds(in Observation seen)
    {
        double late = seen.Scenario.Has(FaultKind.ScansLate) ? HostFaults.LongestGap : 0;
        // A host whose clock went back by half a second tells nothing new until it is there again; its scan has stopped by then.
        return seen.AbandonedFor <= Allowance.HostPeriod + Allowance.Scans + late || !seen.Record.Outputs.Drives;
    }
}

namespace RigControl.Campaigns.Checkers;

internal sealed class UnprovenIsNotRun : Checker
{
    private Lasting _unproven;

    public override string Promise => "what no valid proof of its failsafe stands behind is not driven";

    protected override bool Holds(in Observation seen)
    {
        double late = seen.Scenario.Has(FaultKind.ScansLate) ? HostFaults.LongestGap : 0;
        double unprovenFor = _unproven.For(!seen.Proven, seen.Time);
        // A board that is swapped in mid-run falls silent first; by that it is noticed.
        return unprovenFor <= Allowance.HostPeriod + Allowance.HostSilence + Allowance.Scans + late || !seen.Record.Outputs.Drives;
    }
}

using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class SafeStopEndsUnpowered : Checker
{
    private Lasting _stopped;

    public override string Promise => "every safe-stop ends without power once the article's stopping time is over";

    protected override bool Holds(in Observation seen)
    {
        double stoppedFor = _stopped.For(seen.Record.State == RigState.SafeStop, seen.Time);
        // A scan that comes late takes the power away late; the bench that hears nothing has taken it away by then.
        double allowed = CampaignRig.Article.StoppingTime.TotalSeconds + Allowance.Scans + (seen.Scenario.Has(FaultKind.ScansLate) ? HostFaults.LongestGap : 0);
        return stoppedFor <= allowed || !seen.Record.Outputs.Power;
    }
}

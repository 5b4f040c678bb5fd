using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class UnlockedMeansSafe : Checker
{
    public override string Promise => "an open lock means power off and a rotor at rest";

    protected override bool Holds(in Observation seen)
    {
        if (seen.Record.Outputs.Unlocked && (seen.Record.State != RigState.Idle || seen.Record.Outputs.Power || !seen.Record.AtStandstill))
            return false;
        // A lid that is forced past its bolt is not the lock's doing; that the drive ends is another promise.
        if (seen.Truth.BoltHome || seen.Scenario.Has(FaultKind.LidForced) || seen.Scenario.NeedsLidMoved)
            return true;
        // A bolt that sticks and reads as home is open for nobody to see.
        if (seen.Scenario.Has(FaultKind.BoltStuck) && Allowance.Lies(seen.Scenario, BenchChannels.Bolt))
            return true;
        bool atRest = Math.Abs(seen.Truth.Speed) <= CampaignRig.AtRest || Allowance.RestUnseen(seen.Scenario);
        bool unpowered = !seen.Truth.ContactorClosed || Allowance.Lies(seen.Scenario, BenchChannels.Bolt);
        return atRest && unpowered;
    }
}

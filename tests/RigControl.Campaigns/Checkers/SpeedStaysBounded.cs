namespace RigControl.Campaigns.Checkers;

internal sealed class SpeedStaysBounded : Checker
{
    public override string Promise => "the true speed stays below the limit plus what acceleration times reaction adds";

    protected override bool Holds(in Observation seen) => Math.Abs(seen.Truth.Speed) <= Bound(seen.Scenario);

    private static double Bound(Scenario scenario)
    {
        bool wild = Allowance.SignalGone(scenario);
        // Two ways to stop bear one failure. Once the controller does not obey, the contactor and the speed's sensor have to:
        // without either, nothing but the pack bounds the speed, and the enclosure has to bear that.
        if (wild && (Allowance.PowerGone(scenario) || Allowance.SpeedUnseen(scenario)))
            return CampaignRig.TopSpeed;
        double acceleration = scenario.Has(FaultKind.ControllerShorted) ? CampaignRig.ShortedAcceleration : CampaignRig.GreatestAcceleration;
        double late = scenario.AnySensor(BenchChannels.Speed) ? Allowance.LateReading : 0;
        return CampaignRig.SpeedLimit * CampaignRig.RadPerSecond + acceleration * (Allowance.Power(scenario) + Allowance.Revolution + late);
    }
}

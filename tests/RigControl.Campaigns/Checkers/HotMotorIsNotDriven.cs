namespace RigControl.Campaigns.Checkers;

internal sealed class HotMotorIsNotDriven : Checker
{
    // Seven times the noise of the sensor and half of its resolution.
    private const double Noise = 7 * 0.05 + 0.05;
    private Lasting _hot;

    public override string Promise => "a motor that is really above its ceiling is not driven";

    protected override bool Holds(in Observation seen)
    {
        double hotFor = _hot.For(seen.Truth.CaseTemperature > CampaignRig.Ceiling + Noise, seen.Time);
        if (hotFor == 0 || !seen.Truth.Driven || seen.Scenario.AnySensor(BenchChannels.MotorTemperature))
            return true;
        Scenario scenario = seen.Scenario;
        return hotFor <= Allowance.TemperaturePeriod + Allowance.Shortest(
            !Allowance.SignalGone(scenario), Allowance.Signal(scenario), !Allowance.PowerGone(scenario), Allowance.Power(scenario));
    }
}

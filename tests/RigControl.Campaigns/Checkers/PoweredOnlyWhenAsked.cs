namespace RigControl.Campaigns.Checkers;

internal sealed class PoweredOnlyWhenAsked : Checker
{
    private Lasting _unasked;

    public override string Promise => "the contactor is really closed only while the host asks for power";

    protected override bool Holds(in Observation seen)
    {
        double unasked = _unasked.For(!seen.Record.Outputs.Power, seen.Time);
        return !seen.Truth.ContactorClosed || unasked <= Allowance.Power(seen.Scenario) || Allowance.PowerGone(seen.Scenario);
    }
}

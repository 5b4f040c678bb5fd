namespace RigControl.Campaigns.Checkers;

internal sealed class DrivenOnlyAfterStart : Checker
{
    private Acts _acts;
    private Lasting _without;

    public override string Promise => "the motor is really driven only after reset, arm and start";

    protected override bool Holds(in Observation seen)
    {
        double without = _without.For(!_acts.Given(seen.Record), seen.Time);
        // A controller that does not obey drives as soon as it has power, and the power comes with the arm.
        return !seen.Truth.Driven || without <= Allowance.Signal(seen.Scenario) || Allowance.SignalGone(seen.Scenario);
    }
}

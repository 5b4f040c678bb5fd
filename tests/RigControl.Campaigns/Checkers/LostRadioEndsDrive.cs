namespace RigControl.Campaigns.Checkers;

internal sealed class LostRadioEndsDrive : Checker
{
    private Lasting _lost;

    public override string Promise => "a radio that is really lost ends what the receiver drives through the gate";

    protected override bool Holds(in Observation seen)
    {
        Scenario scenario = seen.Scenario;
        double lostFor = _lost.For(seen.Record.Outputs.Gate && scenario.IsOn(FaultKind.RadioLost, seen.Time), seen.Time);
        if (lostFor == 0 || !seen.Truth.Driven)
            return true;
        // The board itself gives stop where the receiver gives nothing; the host, which sees it too, takes the power.
        bool power = !Allowance.PowerGone(scenario) && !scenario.AnySensor(BenchChannels.Receiver);
        return lostFor <= Allowance.Shortest(!Allowance.SignalGone(scenario), Allowance.Signal(scenario), power, Allowance.ContactPeriod + Allowance.Power(scenario));
    }
}

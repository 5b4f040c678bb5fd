namespace RigControl.Campaigns.Checkers;

internal sealed class PressedStopEndsDrive : Checker
{
    private Lasting _pressed;

    public override string Promise => "a stop that is really pressed ends the drive within the reaction time";

    protected override bool Holds(in Observation seen)
    {
        double pressedFor = _pressed.For(seen.Truth.StopPressed, seen.Time);
        if (pressedFor == 0 || !seen.Truth.Driven)
            return true;
        Scenario scenario = seen.Scenario;
        bool stuck = scenario.Has(FaultKind.StopContactStuck);
        bool signal = !Allowance.SignalGone(scenario) && !stuck && !scenario.AnySensor(BenchChannels.Stop);
        bool power = !Allowance.PowerGone(scenario) && !stuck;
        return pressedFor <= Allowance.Shortest(signal, Allowance.Signal(scenario), power, Allowance.Coil(scenario));
    }
}

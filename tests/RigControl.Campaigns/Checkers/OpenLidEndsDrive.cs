namespace RigControl.Campaigns.Checkers;

internal sealed class OpenLidEndsDrive : Checker
{
    private Lasting _open;

    public override string Promise => "a lid that is really open ends the drive within the reaction time";

    protected override bool Holds(in Observation seen)
    {
        double openFor = _open.For(!seen.Truth.LidClosed, seen.Time);
        if (openFor == 0 || !seen.Truth.Driven)
            return true;
        Scenario scenario = seen.Scenario;
        bool firstBlind = scenario.AnySensor(BenchChannels.Lid) || Stuck(scenario, 0, 0.5);
        bool secondBlind = scenario.AnySensor(BenchChannels.LidOpen) || Stuck(scenario, 0.5, 1);
        bool signal = !Allowance.SignalGone(scenario) && !(firstBlind && secondBlind);
        // The contact that closes with the lid lies in the coil circuit itself; only stuck closed is it no way to stop.
        bool power = !Allowance.PowerGone(scenario) && !Stuck(scenario, 0.25, 0.5);
        return openFor <= Allowance.Shortest(signal, Allowance.Signal(scenario), power, Allowance.Coil(scenario));
    }

    private static bool Stuck(Scenario scenario, double from, double to) =>
        scenario.Faults.Any(f => f.Kind == FaultKind.LidContactStuck && f.Size >= from && f.Size < to);
}

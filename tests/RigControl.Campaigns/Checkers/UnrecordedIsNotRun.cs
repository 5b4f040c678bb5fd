namespace RigControl.Campaigns.Checkers;

internal sealed class UnrecordedIsNotRun : Checker
{
    public override string Promise => "what cannot be recorded is not run";

    protected override bool Holds(in Observation seen) => seen.UnrecordedScans <= 2 || !seen.Record.Outputs.Drives;
}

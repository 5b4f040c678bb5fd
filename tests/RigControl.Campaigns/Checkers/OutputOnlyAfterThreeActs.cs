namespace RigControl.Campaigns.Checkers;

internal sealed class OutputOnlyAfterThreeActs : Checker
{
    private Acts _acts;

    public override string Promise => "no output without reset, arm and start from the bench, in this order";

    protected override bool Holds(in Observation seen) => _acts.Given(seen.Record) || !seen.Record.Outputs.Drives;
}

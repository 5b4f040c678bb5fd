using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class StopIsTakenAtOnce : Checker
{
    public override string Promise => "a stop is taken in the next scan, however full every queue is";

    protected override bool Holds(in Observation seen) =>
        !seen.StopGiven || seen.Record is { State: RigState.SafeStop, Outputs.Drives: false };
}

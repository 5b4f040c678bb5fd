using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class RestartLandsInSafeStop : Checker
{
    public override string Promise => "a host that starts is in safe-stop with output and power off";

    protected override bool Holds(in Observation seen) =>
        !seen.FirstOfSession || seen.Record is { State: RigState.SafeStop, Outputs: { Drives: false, Power: false, Unlocked: false } };
}

using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class NeverDrivenTripped : Checker
{
    public override string Promise => "nothing is driven with an interlock tripped or Bad";

    protected override bool Holds(in Observation seen)
    {
        OutputImage outputs = seen.Record.Outputs;
        for (int i = 0; i < seen.Record.InterlockCount; i++)
        {
            DemandAction action = seen.Record.Demands[i].Action;
            if (outputs.Drives && action <= DemandAction.StopOutput)
                return false;
            if (outputs.Power && action == DemandAction.CutPower)
                return false;
        }

        return true;
    }
}

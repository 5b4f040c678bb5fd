using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class SafeStopLeftOnlyByReset : Checker
{
    public override string Promise => "safe-stop is left only by the bench's reset at standstill";

    protected override bool Holds(in Observation seen)
    {
        if (seen.Record.Before != RigState.SafeStop || seen.Record.Fired is Trigger.None or Trigger.Trip)
            return true;
        bool reset = false;
        for (int i = 0; i < seen.Record.ReceiptCount; i++)
            reset |= seen.Record.Receipts[i] is { Kind: CommandKind.Reset, Source: CommandSource.Bench, Refusal: RefusalReason.None };
        bool atRest = Math.Abs(seen.Truth.Speed) <= CampaignRig.AtRest || Allowance.RestUnseen(seen.Scenario);
        return reset && seen.Record.AtStandstill && seen.Record.Fired == Trigger.Reset && atRest;
    }
}

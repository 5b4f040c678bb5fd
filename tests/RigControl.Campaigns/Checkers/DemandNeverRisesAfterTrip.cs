using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class DemandNeverRisesAfterTrip : Checker
{
    private bool _tripped;

    public override string Promise => "after a trip the demand never rises without a new start";

    protected override bool Holds(in Observation seen)
    {
        _tripped |= seen.Record.State == RigState.SafeStop || seen.Record.NewlyLatched != 0;
        for (int i = 0; i < seen.Record.ReceiptCount; i++)
            _tripped &= seen.Record.Receipts[i] is not { Kind: CommandKind.Start, Refusal: RefusalReason.None };
        return !_tripped || !seen.Record.Outputs.Drives;
    }
}

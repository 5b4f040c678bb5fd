using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

/// <summary>Counts reset, arm and start from the bench, in this order, as the receipts tell them.</summary>
internal struct Acts
{
    private int _count;

    /// <summary>Whether all three were given since the last safe-stop.</summary>
    public bool Given(in ScanRecord record)
    {
        if (record.State == RigState.SafeStop)
            _count = 0;
        for (int i = 0; i < record.ReceiptCount; i++)
        {
            Receipt receipt = record.Receipts[i];
            if (receipt is not { Refusal: RefusalReason.None, Source: CommandSource.Bench })
                continue;
            _count = (receipt.Kind, _count) switch
            {
                (CommandKind.Reset, _) => 1,
                (CommandKind.Arm, 1) => 2,
                (CommandKind.Start, 2) => 3,
                _ => _count,
            };
        }

        return _count == 3;
    }
}

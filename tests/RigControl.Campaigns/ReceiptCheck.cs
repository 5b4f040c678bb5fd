using RigControl.Model.Records;

namespace RigControl.Campaigns;

/// <summary>Every command has exactly one receipt: of one session, whose ids begin anew.</summary>
internal sealed class ReceiptCheck(Watcher watcher)
{
    private readonly HashSet<long> _answered = [];

    /// <summary>Whether a reset was refused because only a restart of the host lets the cause go.</summary>
    public bool RestartAsked { get; private set; }

    public void See(in ScanRecord record)
    {
        for (int i = 0; i < record.ReceiptCount; i++)
        {
            Receipt receipt = record.Receipts[i];
            RestartAsked |= receipt.Refusal == RefusalReason.NeedsRestart;
            if (receipt.Source != CommandSource.Host && !_answered.Add(receipt.Command))
                watcher.Break($"{Campaign.OneReceipt}: command {receipt.Command} has two");
        }
    }

    /// <summary>Nothing given may be left without an answer.</summary>
    public void Settle(IEnumerable<long> given)
    {
        foreach (long id in given.Where(id => !_answered.Contains(id)))
            watcher.Break($"{Campaign.OneReceipt}: command {id} has none");
    }
}

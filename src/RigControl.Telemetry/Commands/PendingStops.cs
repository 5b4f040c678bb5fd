using System.Collections.Concurrent;
using RigControl.Model.Records;

namespace RigControl.Telemetry.Commands;

/// <summary>
/// Stops that are in the inbox and wait for their receipt from the scan. Several may have become one command; each gets its own
/// answer. The scan may answer before the stop stands here: what it said lately is kept.
/// </summary>
internal sealed class PendingStops(TimeProvider time, Action<Answer> answer)
{
    /// <summary>How long the scan may take before a stop is answered without it.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    /// <summary>Most stops that wait; a stop beyond acts all the same and is answered no more.</summary>
    public const int Most = 1024;

    private readonly Lock _lock = new();
    private readonly List<(long Id, Answer Answer, long Since)> _waiting = [];
    private readonly ConcurrentQueue<(long Id, RefusalReason Refusal)> _heard = new();
    private readonly Dictionary<long, RefusalReason> _answered = [];

    /// <summary>Called by the scan with a receipt; only puts it down.</summary>
    public void Hear(in Receipt receipt) => _heard.Enqueue((receipt.Command, receipt.Refusal));

    public void Add(long id, Answer reply)
    {
        lock (_lock)
        {
            if (_waiting.Count < Most)
                _waiting.Add((id, reply, time.GetTimestamp()));
        }

        Settle();
    }

    /// <summary>Answers what can be answered. Called whenever the scan has said something, and now and then.</summary>
    public void Settle()
    {
        lock (_lock)
        {
            while (_heard.TryDequeue(out var heard))
            {
                if (_answered.Count >= Most)
                    _answered.Clear();
                _answered[heard.Id] = heard.Refusal;
            }

            for (int i = _waiting.Count - 1; i >= 0; i--)
            {
                (long id, Answer reply, long since) = _waiting[i];
                if (_answered.TryGetValue(id, out RefusalReason refusal))
                    answer(reply with { Reason = refusal == RefusalReason.None ? null : "the rig did not take it" });
                else if (time.GetElapsedTime(since) > Patience)
                    answer(reply with { Reason = "no scan has taken it in time; the run may have ended" });
                else
                    continue;
                _waiting.RemoveAt(i);
            }
        }
    }
}

using System.Collections.Concurrent;
using RigControl.Telemetry.Commands;

namespace RigControl.Telemetry.Publishing;

/// <summary>Receipts that wait for the link. A flood of refused commands loses its receipts first.</summary>
internal sealed class AnswerQueue
{
    /// <summary>Most receipts of refused commands that wait.</summary>
    public const int MostRefused = 64;

    /// <summary>Most receipts that wait at all.</summary>
    public const int Most = 2048;

    private readonly ConcurrentQueue<Answer> _waiting = new();
    private long _dropped;

    /// <summary>Receipts that were not sent.</summary>
    public long Dropped => Interlocked.Read(ref _dropped);

    public bool IsEmpty => _waiting.IsEmpty;

    public void Put(Answer answer)
    {
        if (_waiting.Count < (answer.Reason is null ? Most : MostRefused))
            _waiting.Enqueue(answer);
        else
            Interlocked.Increment(ref _dropped);
    }

    public bool TryTake(out Answer? answer) => _waiting.TryDequeue(out answer);
}

using RigControl.Model.Records;

namespace RigControl.Runtime.Recording;

/// <summary>
/// Chunks on their way to the recorder and back: a bounded number of them, made once. The record loses nothing: with no
/// empty chunk left, a virtual clock waits and a real one has to stop the rig.
/// </summary>
internal sealed class ChunkQueue
{
    private readonly Lock _lock = new();
    private readonly SemaphoreSlim _full = new(0);
    private readonly SemaphoreSlim _empty;
    private readonly Queue<RecordChunk> _filled = new();
    private readonly Stack<RecordChunk> _free = new();
    private readonly int _count;
    private volatile bool _closed;

    public ChunkQueue(int chunks, int devices)
        : this([.. Enumerable.Range(0, chunks).Select(_ => new RecordChunk(devices))])
    {
    }

    /// <param name="empty">The chunks, all empty.</param>
    public ChunkQueue(IReadOnlyList<RecordChunk> empty)
    {
        _count = empty.Count;
        _empty = new SemaphoreSlim(_count);
        foreach (RecordChunk chunk in empty)
            _free.Push(chunk);
    }

    /// <summary>Share of the chunks that wait for the recorder, 0 to 1.</summary>
    public double Backlog => 1.0 - (double)_empty.CurrentCount / _count;

    /// <summary>An empty chunk, or null when none comes free within <paramref name="patience"/>.</summary>
    public RecordChunk? Rent(TimeSpan patience)
    {
        if (!_empty.Wait(patience))
            return null;
        lock (_lock)
            return _free.Pop();
    }

    public void Post(RecordChunk chunk)
    {
        lock (_lock)
            _filled.Enqueue(chunk);
        _full.Release();
    }

    /// <summary>The next filled chunk; null when none came within <paramref name="patience"/> or the queue is closed and empty.</summary>
    public RecordChunk? Take(TimeSpan patience)
    {
        if (!_full.Wait(_closed ? TimeSpan.Zero : patience))
            return null;
        lock (_lock)
            return _filled.TryDequeue(out RecordChunk? chunk) ? chunk : null;
    }

    public bool IsDone
    {
        get
        {
            lock (_lock)
                return _closed && _filled.Count == 0;
        }
    }

    public void Return(RecordChunk chunk)
    {
        chunk.Clear();
        lock (_lock)
            _free.Push(chunk);
        _empty.Release();
    }

    /// <summary>No more chunks will come.</summary>
    public void Close()
    {
        _closed = true;
        _full.Release();
    }
}

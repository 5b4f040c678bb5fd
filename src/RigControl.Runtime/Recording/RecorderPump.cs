using System.Diagnostics;
using RigControl.Model.Records;

namespace RigControl.Runtime.Recording;

/// <summary>
/// The one thread that writes a run. Everything that has been handed over survives a killed process after at most
/// <see cref="CommitInterval"/>; chunks that hold events at once.
/// </summary>
internal sealed class RecorderPump : IDisposable
{
    /// <summary>
    /// Time after a commit from which the next chunk brings another; oftener the disk would set the pace. With a chunk every 50 ms that
    /// is one in two: what a killed process loses is a tenth of a second and the time that a commit takes.
    /// </summary>
    public static readonly TimeSpan CommitInterval = TimeSpan.FromMilliseconds(75);

    /// <summary>Chunks in circulation: at 1 kHz and one chunk every 50 ms, more than three seconds of a stuck disk.</summary>
    public const int Chunks = 64;

    /// <summary>
    /// The same on a virtual clock, which waits for an empty one instead of stopping: a simulated rig runs on for no longer than
    /// these and <see cref="MostUncommitted"/> hold after its record can no longer be kept, however fast it goes.
    /// </summary>
    public const int ChunksInLockStep = 8;

    /// <summary>Chunks after which one commits whatever the time.</summary>
    public const int MostUncommitted = 8;

    private readonly IRunRecorder _recorder;
    private readonly Action<RigEvent>? _kept;
    private readonly Thread _thread;
    private volatile StorageException? _failure;

    /// <param name="kept">Hears every event once it is safe, or once it is known that nothing will be; on the recorder's thread.</param>
    public RecorderPump(IRunRecorder recorder, int devices, Action<RigEvent>? kept = null, int chunks = Chunks)
    {
        (_recorder, _kept) = (recorder, kept);
        Queue = new ChunkQueue(chunks, devices);
        _thread = new Thread(Run) { Name = "recorder", IsBackground = true };
        _thread.Start();
    }

    public ChunkQueue Queue { get; }

    /// <summary>Why the record can no longer be kept, or null.</summary>
    public StorageException? Failure => _failure;

    /// <summary>Writes what is left and commits. Nothing may be posted afterwards.</summary>
    /// <exception cref="StorageException">When the record could not be kept.</exception>
    public void Drain()
    {
        Queue.Close();
        _thread.Join();
        if (_failure is not null)
            throw _failure;
    }

    /// <summary>As <see cref="Drain"/>, but waits no longer than <paramref name="patience"/>. Returns whether everything is safe.</summary>
    public bool DrainWithin(TimeSpan patience)
    {
        Queue.Close();
        return _thread.Join(patience) && _failure is null;
    }

    public void Dispose()
    {
        Queue.Close();
        _thread.Join();
    }

    private void Run()
    {
        long lastCommit = Stopwatch.GetTimestamp();
        int uncommitted = 0;
        while (!Queue.IsDone)
        {
            RecordChunk? chunk = Queue.Take(CommitInterval);
            bool urgent = chunk is { Events.Count: > 0 };
            Guarded(() =>
            {
                if (chunk is not null)
                {
                    _recorder.Append(chunk);
                    uncommitted++;
                }

                bool due = urgent || uncommitted >= MostUncommitted || Stopwatch.GetElapsedTime(lastCommit) >= CommitInterval;
                if (uncommitted == 0 || !due)
                    return;
                _recorder.Commit();
                lastCommit = Stopwatch.GetTimestamp();
                uncommitted = 0;
            });
            if (chunk is null)
                continue;
            // Committed above, since it is urgent where it holds any.
            foreach (RigEvent happened in chunk.Events)
                _kept?.Invoke(happened);
            Queue.Return(chunk);
        }

        if (uncommitted > 0)
            Guarded(_recorder.Commit);
    }

    // After the first failure chunks are only passed on, so that the scan can bring the rig to a stop.
    private void Guarded(Action write)
    {
        if (_failure is not null)
            return;
        try
        {
            write();
        }
        catch (StorageException e)
        {
            _failure = e;
        }
#pragma warning disable CA1031 // A recorder that fails in any other way is a lost record too.
        catch (Exception e)
#pragma warning restore CA1031
        {
            _failure = new StorageException("the record cannot be kept: " + e.Message, e);
        }
    }
}

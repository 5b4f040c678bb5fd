using System.Text;

namespace RigControl.Telemetry.Outage;

/// <summary>
/// What has to arrive, in order, until the broker has acknowledged it: kept on disk, so that neither an outage nor the end of
/// the process loses it. Bounded: what is older than the limit allows is given up and counted. Any thread may use it.
/// </summary>
internal sealed class Outbox : IDisposable
{
    /// <summary>Most messages that wait.</summary>
    public const int MostMessages = 10_000;

    /// <summary>Most bytes of payload that wait.</summary>
    public const long MostBytes = 8 << 20;

    private readonly Lock _lock = new();
    private readonly Queue<Outbound> _waiting = new();
    private readonly Stream? _file;
    private readonly Action<string>? _failed;
    private readonly int _most;
    private long _bytes;
    private long _last;
    private long _givenUp;
    private bool _diskFailed;

    /// <param name="file">Where it is kept; null keeps it in memory alone.</param>
    /// <exception cref="IOException">Another process has the file, or the folder cannot be written.</exception>
    public Outbox(string? file, int most = MostMessages, Action<string>? failed = null)
        : this(file is null ? null : new FileStream(file, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None), most, failed)
    {
    }

    /// <param name="failed">Hears once why the disk takes nothing any more; the outbox then lives in memory.</param>
    public Outbox(Stream? file, int most = MostMessages, Action<string>? failed = null)
    {
        (_file, _most, _failed) = (file, most, failed);
        if (file is not null)
            ReadBack();
    }

    /// <summary>Messages given up because too many waited.</summary>
    public long GivenUp => Interlocked.Read(ref _givenUp);

    public int Count
    {
        get
        {
            lock (_lock)
                return _waiting.Count;
        }
    }

    public void Add(Outbound message)
    {
        lock (_lock)
        {
            Outbound numbered = message with { Number = ++_last };
            Keep(numbered);
            Write(OutboundLine.Of(numbered));
            GiveUpTheOldest();
        }
    }

    /// <summary>The message that is next, or null. It stays until <see cref="Done"/>.</summary>
    public Outbound? Next()
    {
        lock (_lock)
            return _waiting.TryPeek(out Outbound? next) ? next : null;
    }

    /// <summary>The message has arrived.</summary>
    public void Done(Outbound message)
    {
        lock (_lock)
        {
            // It may have been given up while it was on its way.
            if (_waiting.TryPeek(out Outbound? next) && next.Number == message.Number)
                Drop();
            if (_waiting.Count == 0)
                Empty();
            else
                Write(OutboundLine.Done(message.Number));
        }
    }

    public void Dispose() => _file?.Dispose();

    private void Keep(Outbound message)
    {
        _waiting.Enqueue(message);
        _bytes += message.Payload.Length;
        _last = Math.Max(_last, message.Number);
    }

    private Outbound Drop()
    {
        Outbound dropped = _waiting.Dequeue();
        _bytes -= dropped.Payload.Length;
        return dropped;
    }

    private void GiveUpTheOldest()
    {
        long number = 0;
        while (_waiting.Count > _most || _bytes > MostBytes)
        {
            number = Drop().Number;
            Interlocked.Increment(ref _givenUp);
        }

        if (number > 0)
            Write(OutboundLine.Done(number));
        // Lines of what is gone take room until the file is written anew.
        if (_file is { Length: > MostBytes * 4 })
            Rewrite();
    }

    private void ReadBack()
    {
        using StreamReader reader = new(_file!, Encoding.UTF8, leaveOpen: true);
        while (reader.ReadLine() is { } line)
        {
            (Outbound? message, long done) = OutboundLine.Read(line);
            if (message is not null)
                Keep(message);
            while (_waiting.TryPeek(out Outbound? next) && next.Number <= done)
                Drop();
        }

        // A torn last line must not swallow the next one.
        Rewrite();
    }

    private void Rewrite()
    {
        Empty();
        foreach (Outbound message in _waiting)
            Write(OutboundLine.Of(message));
    }

    private void Empty() => Guarded(file => file.SetLength(0));

    private void Write(byte[] line) => Guarded(file =>
    {
        file.Seek(0, SeekOrigin.End);
        file.Write(line);
        file.Flush();
    });

    private void Guarded(Action<Stream> act)
    {
        if (_file is null || _diskFailed)
            return;
        try
        {
            act(_file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _diskFailed = true;
            _failed?.Invoke(e.Message);
        }
    }
}

using RigControl.Contracts;
using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Serial;

/// <summary>
/// The line to one board: cuts what comes into lines and numbers what goes. After the first failure of the line nothing is
/// written any more, since a write to a dead port may never come back; the board stops by itself when it hears nothing.
/// </summary>
/// <param name="line">Owned from now on.</param>
/// <param name="port">What a person calls the port.</param>
internal sealed class BoardLink(ILine line, string port) : IDisposable
{
    /// <summary>How long closing is waited for. A port that does not close by then is left to the system.</summary>
    private static readonly TimeSpan ClosingTime = TimeSpan.FromSeconds(1);

    private readonly byte[] _received = new byte[4096];
    private readonly LineReader _reader = new();
    private int _next;
    private int _count;
    private ushort _sequence;
    private DeviceException? _failure;

    public string Port { get; } = port;

    /// <summary>Bytes that have come since the link was opened.</summary>
    public long Heard { get; private set; }

    public long Spoilt => _reader.Spoilt;

    /// <summary>The latest line, up to and without its check, valid until the next call.</summary>
    public ReadOnlySpan<byte> Line => _reader.Line;

    /// <summary>Length of the latest line as it was sent, in bytes.</summary>
    public int SentLength => _reader.SentLength;

    public LineWriter Writer { get; } = new();

    /// <summary>Waits a few milliseconds for bytes. Lines in them are had from <see cref="NextLine"/>.</summary>
    public void Receive()
    {
        _count = Try(static link => link.ReadLine(), "reading from");
        _next = 0;
        Heard += _count;
    }

    /// <summary>Whether another good line was in what has been received; it then stands in <see cref="Line"/>.</summary>
    public bool NextLine()
    {
        while (_next < _count)
        {
            if (_reader.Add(_received[_next++]))
                return true;
        }

        return false;
    }

    /// <summary>Throws away all that is old, and begins with the next whole line.</summary>
    public void StartAfresh()
    {
        Try(static link => link.DiscardLine(), "reading from");
        (_next, _count) = (0, 0);
        _reader.LosePlace();
    }

    /// <summary>Begins a line with the next number.</summary>
    /// <returns>The writer, to add fields to, and the line's number.</returns>
    public (LineWriter Writer, ushort Number) Begin(ReadOnlySpan<byte> word)
    {
        _sequence++;
        return (Writer.Begin(word, _sequence), _sequence);
    }

    /// <summary>Closes the line begun and sends it.</summary>
    public void Send()
    {
        Writer.End();
        Try(static link => link.WriteLine(), "writing to");
    }

    /// <summary>Closes the line on a thread of its own: closing a dead port can take for ever.</summary>
    public void Dispose()
    {
        Thread closing = new(Close) { IsBackground = true, Name = "closing " + Port };
        closing.Start();
        closing.Join(ClosingTime);
    }

    private int ReadLine() => line.Read(_received);

    private int DiscardLine()
    {
        line.Discard();
        return 0;
    }

    private int WriteLine()
    {
        line.Write(Writer.Bytes, Writer.Length);
        return Writer.Length;
    }

    private void Close()
    {
        try
        {
            line.Dispose();
        }
#pragma warning disable CA1031 // The port is given up either way.
        catch (Exception)
#pragma warning restore CA1031
        {
            // Nobody could act on it.
        }
    }

    private int Try(Func<BoardLink, int> act, string doing)
    {
        if (_failure is not null)
            throw _failure;
        try
        {
            return act(this);
        }
#pragma warning disable CA1031 // Ports fail with many kinds of exception, and after any of them the line is dead.
        catch (Exception e)
#pragma warning restore CA1031
        {
            _failure = new DeviceException($"{doing} the board on {Port} failed: {e.Message} Is it still plugged in?", e);
            throw _failure;
        }
    }
}

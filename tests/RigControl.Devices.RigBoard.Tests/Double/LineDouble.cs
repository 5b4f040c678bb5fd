using RigControl.Devices.RigBoard.Serial;

namespace RigControl.Devices.RigBoard.Tests.Double;

/// <summary>A line in memory to a board double on a manual clock. Waiting lets the board live; faults are injected here.</summary>
internal sealed class LineDouble : ILine
{
    private const int ReadWait = 10;
    private readonly Queue<byte> _waiting = new();
    private readonly BoardDouble _board;
    private readonly ManualTime _time;

    public LineDouble(BoardDouble board, ManualTime time)
    {
        (_board, _time) = (board, time);
        board.Write = line => Array.ForEach(Mangle(line), _waiting.Enqueue);
    }

    /// <summary>What becomes of a board's line on its way.</summary>
    public Func<byte[], byte[]> Mangle { get; set; } = line => line;

    /// <summary>What is thrown by a read or write, counted from 1; null where it works.</summary>
    public Func<int, Exception?> FailRead { get; set; } = _ => null;

    public Func<int, Exception?> FailWrite { get; set; } = _ => null;

    /// <summary>Most bytes that one read gives: a driver hands lines over in pieces.</summary>
    public int Piece { get; set; } = 64;

    public int Reads { get; private set; }

    public int Writes { get; private set; }

    public bool Closed { get; private set; }

    /// <summary>Done in place of closing.</summary>
    public Action Closing { get; set; } = () => { };

    public int Read(byte[] buffer)
    {
        if (FailRead(++Reads) is { } failure)
            throw failure;
        for (int waited = 0; waited < ReadWait && _waiting.Count == 0; waited++)
            Pass();
        int count = Math.Min(Math.Min(_waiting.Count, Piece), buffer.Length);
        for (int i = 0; i < count; i++)
            buffer[i] = _waiting.Dequeue();
        return count;
    }

    public void Write(byte[] bytes, int count)
    {
        if (FailWrite(++Writes) is { } failure)
            throw failure;
        _board.Hear(bytes.AsSpan(0, count));
    }

    public void Discard() => _waiting.Clear();

    public void Put(ReadOnlySpan<byte> bytes)
    {
        foreach (byte b in bytes)
            _waiting.Enqueue(b);
    }

    public void Dispose()
    {
        Closing();
        Closed = true;
    }

    private void Pass()
    {
        _time.Pass(TimeSpan.FromMilliseconds(1));
        _board.Tick();
    }
}

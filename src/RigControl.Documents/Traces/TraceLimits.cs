namespace RigControl.Documents.Traces;

/// <summary>Bounds on a trace, so that no file can cost more than a few seconds and a few hundred megabytes.</summary>
internal static class TraceLimits
{
    /// <summary>Most characters of a file.</summary>
    public const long Characters = 256L << 20;

    /// <summary>Most columns, the time included.</summary>
    public const int Columns = 256;

    /// <summary>Most cells: an hour of 16 channels at 250 Hz.</summary>
    public const long Cells = 16_000_000;

    /// <summary>Most characters of a cell.</summary>
    public const int Cell = 200;
}

/// <summary>Passes a text on until it is longer than a trace may be.</summary>
internal sealed class BoundedReader(TextReader inner, long most) : TextReader
{
    private long _left = most;

    public override int Peek() => inner.Peek();

    public override int Read() => Count(inner.Read(), c => c >= 0 ? 1 : 0);

    public override int Read(char[] buffer, int index, int count) => Count(inner.Read(buffer, index, count), n => n);

    public override int Read(Span<char> buffer) => Count(inner.Read(buffer), n => n);

    private int Count(int result, Func<int, int> length)
    {
        _left -= length(result);
        return _left >= 0 ? result : throw new TooLongException();
    }
}

internal sealed class TooLongException() : Exception("the text is longer than a trace may be");

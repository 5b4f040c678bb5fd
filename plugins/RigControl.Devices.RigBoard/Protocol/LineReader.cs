namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>
/// Cuts bytes into lines and lets through only those whose length, characters and CRC are right. It begins, and goes on
/// after a fault, at the next line feed; nothing it is fed can make it fail.
/// </summary>
internal sealed class LineReader
{
    /// <summary>Longest line of the board without its line feed, in bytes, as the line protocol has it.</summary>
    public const int Longest = 199;

    private const int CheckLength = 5;
    private readonly byte[] _line = new byte[Longest];
    private int _length;
    private int _content;
    private bool _lost = true;

    /// <summary>Lines thrown away because something in them was wrong. The rest of a line begun before start-up is none.</summary>
    public long Spoilt { get; private set; }

    /// <summary>The latest good line up to and without its check, valid until the next <see cref="Add"/>.</summary>
    public ReadOnlySpan<byte> Line => _line.AsSpan(0, _content);

    /// <summary>Length of the latest good line as it was sent, line feed included, in bytes.</summary>
    public int SentLength => _content + CheckLength + 2;

    /// <summary>Takes the next byte; true when it completes a good line.</summary>
    public bool Add(byte next)
    {
        if (next == '\n')
            return End();
        if (_lost)
            return false;
        if (next is < 0x20 or > 0x7E || _length == Longest)
            Lose();
        else
            _line[_length++] = next;
        return false;
    }

    /// <summary>Forgets the line begun: bytes between it and the next ones are missing.</summary>
    public void LosePlace() => (_length, _lost) = (0, true);

    private void Lose()
    {
        Spoilt++;
        LosePlace();
    }

    private bool End()
    {
        bool wasLost = _lost;
        int length = _length;
        (_length, _lost) = (0, false);
        if (wasLost)
            return false;
        _content = length - CheckLength - 1;
        if (_content > 0 && _line[_content] == ' ' && CheckIsRight(_line.AsSpan(0, length)))
            return true;
        Spoilt++;
        return false;
    }

    private static bool CheckIsRight(ReadOnlySpan<byte> line)
    {
        ReadOnlySpan<byte> check = line[^CheckLength..];
        return check[0] == '#' && LineFields.TryHex(check[1..], 4, out uint value) && value == Crc16.Of(line[..^CheckLength]);
    }
}

using System.Globalization;

namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>Writes one line at a time into a buffer of its own: number, fields, check and line feed.</summary>
internal sealed class LineWriter
{
    /// <summary>Longest line that the board takes, line feed included, in bytes, as the line protocol has it.</summary>
    public const int Longest = 120;

    private readonly byte[] _line = new byte[Longest];

    /// <summary>The bytes of the line; the first <see cref="Length"/> count.</summary>
    public byte[] Bytes => _line;

    public int Length { get; private set; }

    public LineWriter Begin(ReadOnlySpan<byte> word, ushort sequence)
    {
        Length = 0;
        return Text(word).Hex(sequence);
    }

    public LineWriter Text(ReadOnlySpan<byte> field)
    {
        field.CopyTo(_line.AsSpan(Length));
        Length += field.Length;
        _line[Length++] = (byte)' ';
        return this;
    }

    /// <summary>Four hexadecimal digits.</summary>
    public LineWriter Hex(ushort value)
    {
        AddHex(value);
        _line[Length++] = (byte)' ';
        return this;
    }

    public LineWriter Decimal(int value)
    {
        value.TryFormat(_line.AsSpan(Length), out int written, default, CultureInfo.InvariantCulture);
        Length += written;
        _line[Length++] = (byte)' ';
        return this;
    }

    public LineWriter Flag(bool value) => Decimal(value ? 1 : 0);

    /// <summary>Closes the line with its check.</summary>
    public void End()
    {
        ushort check = Crc16.Of(_line.AsSpan(0, Length));
        _line[Length++] = (byte)'#';
        AddHex(check);
        _line[Length++] = (byte)'\n';
    }

    private void AddHex(ushort value)
    {
        value.TryFormat(_line.AsSpan(Length), out int written, "X4", CultureInfo.InvariantCulture);
        Length += written;
    }
}

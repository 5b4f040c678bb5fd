using System.Globalization;
using System.Text;

namespace RigControl.Board.Simulator.Line;

/// <summary>A line of the rig board's protocol (<c>shared/board/protocol.md</c>): word, number, fields and CRC.</summary>
/// <remarks>Written apart from the host's own code, so that the two check each other.</remarks>
public sealed record BoardLine(string Word, ushort Sequence, string[] Fields)
{
    private const ushort Polynomial = 0x1021;

    /// <summary>The line's bytes, line feed included.</summary>
    public static byte[] Compose(string word, ushort sequence, params string[] fields)
    {
        string text = string.Join(' ', [word, Hex(sequence), .. fields]) + ' ';
        return Encoding.ASCII.GetBytes($"{text}#{Hex(Crc(text))}\n");
    }

    /// <summary>Reads a line without its line feed; null when form or CRC are wrong.</summary>
    public static BoardLine? Read(string line)
    {
        int mark = line.LastIndexOf('#');
        if (mark < 1 || line.Length != mark + 5 || line[(mark + 1)..] != Hex(Crc(line[..mark])))
            return null;
        string[] parts = line[..(mark - 1)].Split(' ');
        return parts.Length > 1 && ushort.TryParse(parts[1], NumberStyles.HexNumber, CultureInfo.InvariantCulture, out ushort sequence)
            ? new BoardLine(parts[0], sequence, parts[2..])
            : null;
    }

    /// <summary>CRC-16 with polynomial 0x1021 and initial value 0xFFFF over the characters of <paramref name="text"/>.</summary>
    public static ushort Crc(string text)
    {
        ushort crc = 0xFFFF;
        foreach (char character in text)
        {
            crc ^= (ushort)(character << 8);
            for (int bit = 0; bit < 8; bit++)
                crc = (ushort)((crc & 0x8000) != 0 ? (crc << 1) ^ Polynomial : crc << 1);
        }

        return crc;
    }

    /// <summary>Four upper-case hexadecimal digits.</summary>
    public static string Hex(ushort value) => value.ToString("X4", CultureInfo.InvariantCulture);

    /// <summary>A field as a hexadecimal number.</summary>
    public uint HexField(int index) => uint.Parse(Fields[index], NumberStyles.HexNumber, CultureInfo.InvariantCulture);

    /// <summary>A field as a decimal number.</summary>
    public uint Number(int index) => uint.Parse(Fields[index], NumberStyles.None, CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    public override string ToString() => string.Join(' ', [Word, Hex(Sequence), .. Fields]);
}

namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>Takes a line apart, field by field. A field that is not as described makes the line malformed; nothing throws.</summary>
internal ref struct LineFields(ReadOnlySpan<byte> line)
{
    private ReadOnlySpan<byte> _rest = line;
    private bool _ended;

    /// <summary>Whether a field was missing or not as asked for.</summary>
    public bool Malformed { get; private set; }

    /// <summary>Whether every field so far was right and none is left over.</summary>
    public readonly bool Complete => !Malformed && _ended;

    /// <summary>The fields not yet taken, as they stand in the line.</summary>
    public readonly ReadOnlySpan<byte> Rest => _ended ? default : _rest;

    /// <summary>The next field, whatever it is.</summary>
    public ReadOnlySpan<byte> Text()
    {
        int space = _rest.IndexOf((byte)' ');
        ReadOnlySpan<byte> field = space < 0 ? _rest : _rest[..space];
        Malformed |= _ended || field.IsEmpty;
        _ended |= space < 0;
        _rest = space < 0 ? default : _rest[(space + 1)..];
        return field;
    }

    /// <summary>The next field as upper-case hexadecimal of a fixed width.</summary>
    public uint Hex(int digits)
    {
        Malformed |= !TryHex(Text(), digits, out uint value);
        return value;
    }

    /// <summary>The next field as a decimal from 0 to <paramref name="most"/>, without sign or leading zero.</summary>
    public uint Decimal(uint most)
    {
        ReadOnlySpan<byte> field = Text();
        ulong value = 0;
        bool right = field.Length is > 0 and <= 10 && (field.Length == 1 || field[0] != '0');
        foreach (byte digit in field)
        {
            right &= digit is >= (byte)'0' and <= (byte)'9';
            value = unchecked(value * 10 + (ulong)(digit - '0'));
        }

        Malformed |= !right || value > most;
        return right && value <= most ? (uint)value : 0;
    }

    /// <summary>Calls the line malformed for a reason of the caller's.</summary>
    public void Spoil() => Malformed = true;

    /// <summary>Reads upper-case hexadecimal of a fixed width.</summary>
    public static bool TryHex(ReadOnlySpan<byte> field, int digits, out uint value)
    {
        value = 0;
        if (field.Length != digits)
            return false;
        foreach (byte digit in field)
        {
            int place = "0123456789ABCDEF"u8.IndexOf(digit);
            if (place < 0)
                return false;
            value = value << 4 | (uint)place;
        }

        return true;
    }
}

using System.Buffers.Binary;

namespace RigControl.Logbook.Blocks;

/// <summary>
/// Takes a block apart in the order in which <see cref="BlockWriter"/> built it. A block that ends too early or holds
/// what no writer writes throws <see cref="InvalidDataException"/>.
/// </summary>
internal struct BlockReader(byte[] bytes, int start, int end)
{
    private int _next = start;

    public BlockReader(byte[] bytes) : this(bytes, 0, bytes.Length) { }

    public readonly int Next => _next;

    public readonly int Left => end - _next;

    public byte Byte()
    {
        if (_next >= end)
            throw new InvalidDataException("a block ends too early");
        return bytes[_next++];
    }

    /// <summary>See <see cref="BlockWriter.Unsigned"/>.</summary>
    public ulong Unsigned()
    {
        ulong value = 0;
        for (int shift = 0; shift < 64; shift += 7)
        {
            byte part = Byte();
            value |= (ulong)(part & 0x7F) << shift;
            if (part < 0x80)
                return value;
        }
        throw new InvalidDataException("a number in a block has no end");
    }

    /// <summary>A number that must not be above <paramref name="most"/>.</summary>
    public int UpTo(int most)
    {
        ulong value = Unsigned();
        if (value > (ulong)most)
            throw new InvalidDataException($"a block holds {value} where {most} is the most");
        return (int)value;
    }

    /// <summary>See <see cref="BlockWriter.Signed"/>.</summary>
    public long Signed()
    {
        ulong value = Unsigned();
        return (long)(value >> 1) ^ -(long)(value & 1);
    }

    /// <summary>See <see cref="BlockWriter.Bits"/>.</summary>
    public ulong Bits() => BinaryPrimitives.ReverseEndianness(Unsigned());

    public double Double() => BitConverter.UInt64BitsToDouble(Bits());

    /// <summary>See <see cref="BlockWriter.Fixed"/>.</summary>
    public ulong Fixed()
    {
        if (Left < sizeof(ulong))
            throw new InvalidDataException("a block ends too early");
        ulong value = BinaryPrimitives.ReadUInt64LittleEndian(bytes.AsSpan(_next));
        _next += sizeof(ulong);
        return value;
    }

    /// <summary>Nothing may be left when a block has been read.</summary>
    public readonly void End()
    {
        if (Left != 0)
            throw new InvalidDataException($"{Left} bytes are left over at the end of a block");
    }
}

using System.Buffers.Binary;

namespace RigControl.Logbook.Blocks;

/// <summary>Builds a block in a buffer that keeps its memory from block to block.</summary>
internal sealed class BlockWriter
{
    /// <summary>Most bytes that one <see cref="Unsigned"/> takes: 64 bits in groups of seven.</summary>
    private const int LongestNumber = 10;

    private byte[] _bytes = new byte[4096];
    private int _count;

    public ReadOnlySpan<byte> Bytes => _bytes.AsSpan(0, _count);

    public int Count => _count;

    public void Clear() => _count = 0;

    public void Byte(byte value)
    {
        Reserve(1);
        _bytes[_count++] = value;
    }

    /// <summary>Seven bits a byte, lowest first; the top bit says that more follow. Small numbers are short.</summary>
    public void Unsigned(ulong value)
    {
        Reserve(LongestNumber);
        while (value >= 0x80)
        {
            _bytes[_count++] = (byte)(value | 0x80);
            value >>= 7;
        }
        _bytes[_count++] = (byte)value;
    }

    /// <summary>The sign goes to the lowest bit, so that numbers near zero are short on either side.</summary>
    public void Signed(long value) => Unsigned((ulong)(value << 1) ^ (ulong)(value >> 63));

    /// <summary>The 64 bits of a double, turned about: round numbers end in zeros and become short.</summary>
    public void Bits(ulong value) => Unsigned(BinaryPrimitives.ReverseEndianness(value));

    public void Double(double value) => Bits(BitConverter.DoubleToUInt64Bits(value));

    /// <summary>Eight bytes as they are, for what cannot be shortened.</summary>
    public void Fixed(ulong value)
    {
        Reserve(sizeof(ulong));
        BinaryPrimitives.WriteUInt64LittleEndian(_bytes.AsSpan(_count), value);
        _count += sizeof(ulong);
    }

    /// <summary>Ends the block with its <see cref="BlockSeal"/>.</summary>
    public void Seal()
    {
        uint seal = BlockSeal.Of(Bytes);
        Reserve(BlockSeal.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(_bytes.AsSpan(_count), seal);
        _count += BlockSeal.Length;
    }

    public void Append(ReadOnlySpan<byte> bytes)
    {
        Reserve(bytes.Length);
        bytes.CopyTo(_bytes.AsSpan(_count));
        _count += bytes.Length;
    }

    private void Reserve(int more)
    {
        if (_count + more > _bytes.Length)
            Array.Resize(ref _bytes, Math.Max(_bytes.Length * 2, _count + more));
    }
}

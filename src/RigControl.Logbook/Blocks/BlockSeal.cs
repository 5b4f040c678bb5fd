using System.Buffers.Binary;
using System.Numerics;

namespace RigControl.Logbook.Blocks;

/// <summary>
/// The last four bytes of a block: a CRC-32C of all before, since the database does not notice a byte that a bad disk
/// changed, and a wrong reading must not pass for a right one.
/// </summary>
internal static class BlockSeal
{
    public const int Length = sizeof(uint);

    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        uint sum = uint.MaxValue;
        for (; bytes.Length >= sizeof(ulong); bytes = bytes[sizeof(ulong)..])
            sum = BitOperations.Crc32C(sum, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
        foreach (byte last in bytes)
            sum = BitOperations.Crc32C(sum, last);
        return ~sum;
    }

    /// <summary>A reader of what the seal vouches for.</summary>
    /// <exception cref="InvalidDataException">The block is not what was written.</exception>
    public static BlockReader Open(byte[] block)
    {
        int length = block.Length - Length;
        if (length < 0 || BinaryPrimitives.ReadUInt32LittleEndian(block.AsSpan(length)) != Of(block.AsSpan(0, length)))
            throw new InvalidDataException("a block is not as it was written");
        return new BlockReader(block, 0, length);
    }
}

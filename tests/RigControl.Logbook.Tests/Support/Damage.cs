using System.Buffers.Binary;
using RigControl.Logbook.Blocks;

namespace RigControl.Logbook.Tests.Support;

/// <summary>What a bad disk does to a block, or, sealed again, what a faulty program could write.</summary>
internal static class Damage
{
    public static void Any(Random random, ref byte[] block)
    {
        if (random.Next(4) == 0)
            block = block[..random.Next(block.Length)];
        for (int changes = random.Next(1, 4); changes > 0 && block.Length > 0; changes--)
            block[random.Next(block.Length)] = (byte)random.Next(256);
    }

    /// <summary>Damage that the seal does not show, so that everything behind it is put to the test.</summary>
    public static void Sealed(Random random, ref byte[] block)
    {
        byte[] content = block[..^BlockSeal.Length];
        Any(random, ref content);
        Reseal(content, out block);
    }

    public static void Reseal(ReadOnlySpan<byte> content, out byte[] block)
    {
        block = new byte[content.Length + BlockSeal.Length];
        content.CopyTo(block);
        BinaryPrimitives.WriteUInt32LittleEndian(block.AsSpan(content.Length), BlockSeal.Of(content));
    }
}

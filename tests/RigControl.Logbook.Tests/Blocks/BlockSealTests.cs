using RigControl.Logbook.Blocks;

namespace RigControl.Logbook.Tests.Blocks;

/// <summary>A block that is not what was written says so.</summary>
public class BlockSealTests
{
    /// <summary>Check values of CRC-32C: the first from RFC 3720 B.4 (32 zeros), the second the usual "123456789", both from memory.</summary>
    [Fact]
    public void The_seal_is_a_CRC_32C()
    {
        Assert.Equal(0x8A9136AAu, BlockSeal.Of(new byte[32]));
        Assert.Equal(0xE3069283u, BlockSeal.Of("123456789"u8));
    }

    [Fact]
    public void A_block_shorter_than_its_seal_is_damage() => Assert.Throws<InvalidDataException>(() => BlockSeal.Open([1, 2, 3]));

    [Fact]
    public void A_sealed_block_opens_and_shows_all_but_the_seal()
    {
        BlockWriter writer = new();
        writer.Unsigned(300);
        writer.Seal();
        BlockReader reader = BlockSeal.Open(writer.Bytes.ToArray());
        Assert.Equal(300u, reader.Unsigned());
        reader.End();
    }
}

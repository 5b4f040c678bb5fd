using RigControl.Logbook.Blocks;

namespace RigControl.Logbook.Tests.Blocks;

/// <summary>The numbers of which blocks are made.</summary>
public class BlockReaderTests
{
    [Theory]
    [InlineData(0UL, 1)]
    [InlineData(127UL, 1)]
    [InlineData(128UL, 2)]
    [InlineData(ulong.MaxValue, 10)]
    public void A_number_comes_back_and_a_small_one_is_short(ulong value, int length)
    {
        BlockWriter writer = new();
        writer.Unsigned(value);
        Assert.Equal(length, writer.Count);
        Assert.Equal(value, new BlockReader(writer.Bytes.ToArray()).Unsigned());
    }

    [Theory]
    [InlineData(0L, 1)]
    [InlineData(-64L, 1)]
    [InlineData(63L, 1)]
    [InlineData(64L, 2)]
    [InlineData(long.MinValue, 10)]
    [InlineData(long.MaxValue, 10)]
    public void A_signed_number_comes_back_and_one_near_zero_is_short(long value, int length)
    {
        BlockWriter writer = new();
        writer.Signed(value);
        Assert.Equal(length, writer.Count);
        Assert.Equal(value, new BlockReader(writer.Bytes.ToArray()).Signed());
    }

    [Theory]
    [InlineData(0.0, 1)]
    [InlineData(80.0, 3)]
    [InlineData(0.1, 10)]
    public void A_double_comes_back_and_a_round_one_is_short(double value, int most)
    {
        BlockWriter writer = new();
        writer.Double(value);
        Assert.InRange(writer.Count, 1, most);
        Assert.Equal(value, new BlockReader(writer.Bytes.ToArray()).Double());
    }

    [Fact]
    public void A_number_without_an_end_is_damage() =>
        Assert.Throws<InvalidDataException>(() => new BlockReader([.. Enumerable.Repeat((byte)0xFF, 20)]).Unsigned());

    [Fact]
    public void A_number_above_the_most_is_damage() => Assert.Throws<InvalidDataException>(() => new BlockReader([9]).UpTo(8));

    [Fact]
    public void Bytes_that_nobody_reads_are_damage() => Assert.Throws<InvalidDataException>(() => new BlockReader([9]).End());

    [Fact]
    public void A_block_may_grow_beyond_its_first_buffer()
    {
        BlockWriter writer = new();
        for (int i = 0; i < 5000; i++)
            writer.Fixed((ulong)i);
        BlockReader reader = new(writer.Bytes.ToArray());
        for (int i = 0; i < 5000; i++)
            Assert.Equal((ulong)i, reader.Fixed());
        reader.End();
    }
}

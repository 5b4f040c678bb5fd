using RigControl.Telemetry.Sampling;

namespace RigControl.Telemetry.Tests.Sampling;

/// <summary>A link that does not keep up loses the oldest blocks, counted, and never holds up the scan.</summary>
public class BlockRingTests
{
    [Fact]
    public void Blocks_come_out_in_order_and_whole()
    {
        BlockRing ring = new(4, Make);
        Block block = ring.First();
        for (int i = 1; i <= 3; i++)
            block = Post(ring, block, i);
        Assert.Equal([1, 2, 3], Drain(ring));
        Assert.Equal(0, ring.Dropped);
    }

    [Fact]
    [Trait("Requirement", "SAF-070")]
    public void A_full_ring_drops_the_oldest_and_counts_it()
    {
        BlockRing ring = new(4, Make);
        Block block = ring.First();
        for (int i = 1; i <= 10; i++)
            block = Post(ring, block, i);
        Assert.Equal([7, 8, 9, 10], Drain(ring));
        Assert.Equal(6, ring.Dropped);
    }

    [Fact]
    public void Nobody_taking_anything_for_ever_needs_no_more_blocks_than_were_made()
    {
        int made = 0;
        BlockRing ring = new(4, () => { made++; return Make(); });
        Block block = ring.First();
        for (int i = 1; i <= 100_000; i++)
            block = Post(ring, block, i);
        Assert.Equal(6, made);
        Assert.Equal(99_996, ring.Dropped);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    public async Task With_two_threads_every_block_is_taken_once_in_order_or_counted_as_dropped(int capacity)
    {
        const int Blocks = 200_000;
        BlockRing ring = new(capacity, Make);
        List<long> taken = [];
        bool posted = false;
        Task posting = Task.Run(() =>
        {
            Block block = ring.First();
            for (int i = 1; i <= Blocks; i++)
                block = Post(ring, block, i);
            Volatile.Write(ref posted, true);
        }, TestContext.Current.CancellationToken);
        while (true)
        {
            bool last = Volatile.Read(ref posted);
            if (ring.Take() is { } block)
            {
                taken.Add(block.Sequence);
                ring.Return(block);
            }
            else if (last)
            {
                break;
            }
        }

        await posting;
        Assert.Equal(taken.Order().Distinct(), taken);
        Assert.Equal(Blocks, taken.Count + ring.Dropped);
    }

    private static Block Make() => new(1, 1);

    private static Block Post(BlockRing ring, Block block, int sequence)
    {
        block.Begin(sequence, TimeSpan.Zero, TimeSpan.FromSeconds(1));
        return ring.Post(block);
    }

    private static List<long> Drain(BlockRing ring)
    {
        List<long> taken = [];
        while (ring.Take() is { } block)
        {
            taken.Add(block.Sequence);
            ring.Return(block);
        }

        return taken;
    }
}

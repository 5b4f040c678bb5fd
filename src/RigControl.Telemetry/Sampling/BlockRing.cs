namespace RigControl.Telemetry.Sampling;

/// <summary>
/// Blocks on their way from the scan to the link: a fixed number of them, made once, and no lock between the two, so that
/// the scan never waits. When the link does not keep up the oldest block is dropped and counted.
/// </summary>
internal sealed class BlockRing
{
    private readonly Block?[] _filled;
    private readonly Block?[] _free;
    private int _head;
    private long _dropped;
    private long _lastTaken;

    /// <param name="capacity">Most blocks that wait.</param>
    public BlockRing(int capacity, Func<Block> make)
    {
        _filled = new Block?[capacity];
        // One is being filled and one is being sent while the ring is full.
        _free = [.. Enumerable.Range(0, capacity + 2).Select(_ => make())];
    }

    /// <summary>Blocks that nobody will see.</summary>
    public long Dropped => Interlocked.Read(ref _dropped);

    /// <summary>The first block to fill.</summary>
    public Block First() => Spare();

    /// <summary>Hands a block over and returns the next one to fill. For the scan alone.</summary>
    public Block Post(Block filled)
    {
        Block? oldest = Interlocked.Exchange(ref _filled[_head], filled);
        Volatile.Write(ref _head, (_head + 1) % _filled.Length);
        if (oldest is null)
            return Spare();
        Interlocked.Increment(ref _dropped);
        return oldest;
    }

    /// <summary>The oldest block that waits, or null. For the link alone.</summary>
    public Block? Take()
    {
        int oldest = Volatile.Read(ref _head);
        for (int i = 0; i < _filled.Length; i++)
        {
            if (Interlocked.Exchange(ref _filled[(oldest + i) % _filled.Length], null) is not { } block)
                continue;
            // While this looked for the oldest the scan may have lapped it: what comes late is dropped, never sent out of order.
            if (block.Sequence > _lastTaken)
            {
                _lastTaken = block.Sequence;
                return block;
            }

            Interlocked.Increment(ref _dropped);
            Return(block);
        }

        return null;
    }

    /// <summary>Gives a block back once it is sent.</summary>
    public void Return(Block block)
    {
        for (int i = 0; i < _free.Length; i++)
        {
            if (Interlocked.CompareExchange(ref _free[i], block, null) is null)
                return;
        }
    }

    private Block Spare()
    {
        for (int i = 0; i < _free.Length; i++)
        {
            if (Interlocked.Exchange(ref _free[i], null) is { } block)
                return block;
        }

        throw new InvalidOperationException("every block is taken; more were taken than given back");
    }
}

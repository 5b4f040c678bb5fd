namespace RigControl.Kernel.Tests.Exploration;

/// <summary>A state that was not known, and how it was come by.</summary>
internal readonly record struct Found(UInt128 Key, byte[] Bytes, int From, int Move);

/// <summary>What was found by scans from some of the known states.</summary>
internal sealed class Leaving(Dictionary<UInt128, int> known, int kept)
{
    private readonly HashSet<UInt128> _here = [];

    public List<Found> New { get; } = [];

    public HashSet<Passage> Passages { get; } = [];

    public long Scans { get; set; }

    /// <summary>The first rule that was broken, from where and by which move.</summary>
    public (string Rule, RigState State, int From, int Move)? Broken { get; set; }

    public void Add(in Node node, int from, int move)
    {
        UInt128 key = node.Key(kept);
        if (!known.ContainsKey(key) && _here.Add(key))
            New.Add(new Found(key, node.Pack(kept), from, move));
    }
}

namespace RigControl.Kernel.Tests.Exploration;

/// <summary>Visits every state of a world that can be reached, by the real kernel, breadth first, and holds every scan against the rules.</summary>
internal sealed class Explorer
{
    private readonly World _world;
    private readonly Stepper _stepper;
    private readonly int _kept;
    private readonly Dictionary<UInt128, int> _found = [];
    private readonly List<byte[]> _states = [];
    private readonly List<(int From, int Move)> _ways = [];

    /// <param name="world">Where.</param>
    /// <param name="tamper">Plants a defect: changes what the kernel says before the rules see it.</param>
    public Explorer(World world, Stepper.Tamper? tamper = null) => (_world, _stepper, _kept) = (world, new Stepper(world, tamper), Node.Kept(world.Configuration.InterlockCount));

    /// <summary>States found so far.</summary>
    public int States => _states.Count;

    /// <summary>Scans made so far.</summary>
    public long Scans { get; private set; }

    /// <summary>How a rule was broken, with the shortest way there, or null.</summary>
    public string? Broken { get; private set; }

    /// <summary>Ways from one state of the rig to another, or to itself, as the kernel took them.</summary>
    public HashSet<Passage> Passages { get; } = [];

    /// <summary>States of the rig that were reached, with the step.</summary>
    public HashSet<(RigState State, int Step)> Reached { get; } = [];

    /// <summary>Goes on until nothing new is found or a rule is broken.</summary>
    public void Run()
    {
        Node start = new() { Wire = _world.IsLinked ? Wire.Opened : default };
        Add(new Found(start.Key(_kept), start.Pack(_kept), -1, -1));
        for (int begin = 0, end = 1; begin < end && Broken is null; begin = end, end = _states.Count)
            Widen(begin, end);
    }

    /// <summary>Some of the states, evenly from all of them, with their way.</summary>
    public IEnumerable<Node> Some(int count)
    {
        int every = Math.Max(1, _states.Count / count);
        for (int i = 0; i < _states.Count; i += every)
            yield return Read(i);
    }

    // One more scan from each state of the last front; the states are looked at side by side and added in their order.
    private void Widen(int begin, int end)
    {
        const int share = 64;
        int shares = (end - begin + share - 1) / share;
        Leaving[] leaving = new Leaving[shares];
        Parallel.For(0, shares, s =>
        {
            Leaving here = new(_found, _kept);
            for (int i = begin + s * share; i < Math.Min(end, begin + (s + 1) * share) && here.Broken is null; i++)
                _stepper.Leave(_states[i], i, here);
            leaving[s] = here;
        });
        foreach (Leaving here in leaving)
        {
            here.New.ForEach(Add);
            Passages.UnionWith(here.Passages);
            Scans += here.Scans;
            if (Broken is null && here.Broken is { } broken)
                Broken = $"{broken.Rule}: broken in {broken.State} by\n{string.Join('\n', Way(broken.From).Append(_world.Moves[broken.Move].ToString()))}";
        }
    }

    // The moves from the start, each with where it led.
    private List<string> Way(int to)
    {
        List<string> way = [];
        for (int i = to; _ways[i].From >= 0; i = _ways[i].From)
        {
            KernelState state = Read(i).Kernel;
            way.Add($"{_world.Moves[_ways[i].Move]} -> {state.State}{(state.Phase == ArmingPhase.None ? "" : " " + state.Phase)}, step {state.Step + 1}");
        }

        way.Reverse();
        return way;
    }

    private void Add(Found found)
    {
        if (!_found.TryAdd(found.Key, _states.Count))
            return;
        _states.Add(found.Bytes);
        _ways.Add((found.From, found.Move));
        KernelState state = Read(_states.Count - 1).Kernel;
        Reached.Add((state.State, state.Step));
    }

    private Node Read(int place)
    {
        Node node = default;
        node.Unpack(_states[place]);
        return node;
    }
}

using System.IO.Hashing;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace RigControl.Kernel.Tests.Exploration;

/// <summary>Visits every state of a world that can be reached, by the real kernel, breadth first, and holds every scan against the rules.</summary>
internal sealed class Explorer
{
    private readonly World _world;
    private readonly Tamper? _tamper;
    private readonly int _kept;
    private readonly Dictionary<UInt128, int> _found = [];
    private readonly List<byte[]> _states = [];
    private readonly List<(int From, int Move)> _ways = [];

    /// <param name="world">Where.</param>
    /// <param name="tamper">Plants a defect: changes what the kernel says before the rules see it.</param>
    public Explorer(World world, Tamper? tamper = null)
    {
        (_world, _tamper) = (world, tamper);
        _kept = Unsafe.SizeOf<KernelState>() - Unsafe.SizeOf<InterlockSlots>() + world.Configuration.InterlockCount * Unsafe.SizeOf<InterlockSlot>();
    }

    /// <summary>Changes a scan's record on its way out.</summary>
    public delegate void Tamper(ref ScanRecord record);

    /// <summary>States found so far.</summary>
    public int States => _states.Count;

    /// <summary>Scans made so far.</summary>
    public long Scans { get; private set; }

    /// <summary>How a rule was broken, with the shortest way there, or null.</summary>
    public string? Broken { get; private set; }

    /// <summary>States of the rig that were reached, with the step.</summary>
    public HashSet<(RigState State, int Step, ArmingPhase Phase)> Reached { get; } = [];

    /// <summary>Goes on until nothing new is found or a rule is broken.</summary>
    public void Run()
    {
        Add(default, -1, -1);
        for (int i = 0; i < _states.Count && Broken is null; i++)
            Leave(i);
    }

    private void Leave(int from)
    {
        KernelState before = Load(from);
        InputImage image = default;
        Span<Command> commands = stackalloc Command[1];
        for (int m = 0; m < Move.All.Length && Broken is null; m++)
        {
            Move move = Move.All[m];
            move.Into(ref image);
            KernelState after = before;
            ScanRecord record = default;
            if (move.Command is { } command)
                commands[0] = new Command(1, command.Kind, command.Source);
            ScanInput input = new(before.Now + move.After, image, commands[..(move.Command is null ? 0 : 1)]);
            ScanKernel.Scan(_world.Configuration, ref after, input, ref record);
            Scans++;
            _tamper?.Invoke(ref record);
            Check(new Seen(_world.Configuration, before, move, record), from, m);
            (KernelState here, KernelState? atEnd) = Canonical.Of(after);
            Add(here, from, m);
            if (atEnd is { } other)
                Add(other, from, m);
        }
    }

    private void Check(in Seen seen, int from, int move)
    {
        foreach ((string name, Rules.Rule rule) in Rules.All)
        {
            if (rule(seen))
                continue;
            Broken = $"{name}: broken in {seen.Record.State} by\n{string.Join('\n', Way(from).Append(Move.All[move].ToString()))}";
            return;
        }
    }

    // The moves from the start, each with where it led.
    private List<string> Way(int to)
    {
        List<string> way = [];
        for (int i = to; _ways[i].From >= 0; i = _ways[i].From)
        {
            KernelState state = Load(i);
            way.Add($"{Move.All[_ways[i].Move]} -> {state.State}{(state.Phase == ArmingPhase.None ? "" : " " + state.Phase)}, step {state.Step + 1}");
        }

        way.Reverse();
        return way;
    }

    private void Add(in KernelState state, int from, int move)
    {
        ReadOnlySpan<byte> bytes = MemoryMarshal.AsBytes(new ReadOnlySpan<KernelState>(in state))[.._kept];
        if (!_found.TryAdd(XxHash128.HashToUInt128(bytes), _states.Count))
            return;
        _states.Add(bytes.ToArray());
        _ways.Add((from, move));
        Reached.Add((state.State, state.Step, state.Phase));
    }

    private KernelState Load(int place)
    {
        KernelState state = default;
        _states[place].CopyTo(MemoryMarshal.AsBytes(new Span<KernelState>(ref state)));
        return state;
    }
}

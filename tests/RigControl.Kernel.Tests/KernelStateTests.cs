using System.Reflection;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace RigControl.Kernel.Tests;

/// <summary>The state is a value: every byte of it counts, and a copy of it is the same rig.</summary>
public class KernelStateTests
{
    [Theory]
    [InlineData(typeof(KernelState))]
    [InlineData(typeof(InterlockSlot))]
    [InlineData(typeof(ConditionSlot))]
    [InlineData(typeof(ImageEntry))]
    [InlineData(typeof(OutputImage))]
    [InlineData(typeof(Demand))]
    public void No_byte_is_padding(Type type) => Assert.Equal(SumOfFields(type), SizeOf(type));

    [Fact]
    public void The_sum_of_fields_would_find_padding() => Assert.NotEqual(SumOfFields(typeof(Padded)), SizeOf(typeof(Padded)));

    [Fact]
    public void The_zero_value_is_a_rig_that_nobody_has_started()
    {
        KernelState state = default;
        Assert.Equal((RigState.SafeStop, ArmingPhase.None, StateFlags.None, TripCause.None, 0d), (state.State, state.Phase, state.Flags, state.Causes, state.Throttle));
    }

    [Fact]
    public void The_hash_sees_every_byte_that_the_rig_uses_and_none_beyond()
    {
        Configuration configuration = new RigBuilder().With("lid", new ScriptedInterlock()).With("heat", new ScriptedInterlock()).Build();
        KernelState state = default;
        ulong hash = StateHash.Of(configuration, ref state);
        int used = Unsafe.SizeOf<KernelState>() - 30 * Unsafe.SizeOf<InterlockSlot>();
        HashSet<ulong> seen = [hash];
        for (int i = 0; i < Unsafe.SizeOf<KernelState>(); i++)
        {
            Bytes(ref state)[i] ^= 1;
            ulong changed = StateHash.Of(configuration, ref state);
            Bytes(ref state)[i] ^= 1;
            Assert.Equal(i < used, changed != hash);
            Assert.True(i >= used || seen.Add(changed), $"byte {i} gives the hash of another");
        }
    }

    [Fact]
    public void A_copy_taken_at_any_scan_runs_on_to_the_same_bits()
    {
        List<ulong> whole = Hashes(0);
        foreach (int copied in (int[])[1, 40, 300, 700, 900])
            Assert.Equal(whole, Hashes(copied));
    }

    [Trait("Requirement", "SAF-027")]
    [Fact]
    public void Two_runs_of_the_same_inputs_are_the_same_to_the_bit() => Assert.Equal(Hashes(0), Hashes(0));

    [Fact]
    public void The_record_of_a_scan_does_not_depend_on_what_the_record_held_before()
    {
        KernelBench bench = new KernelBench(new RigBuilder().With("lid", new ScriptedInterlock())).ToHold();
        KernelState before = bench.State;
        ScanRecord clean = default, dirty = default;
        MemoryMarshal.AsBytes(MemoryMarshal.CreateSpan(ref dirty, 1)).Fill(0x5A);
        ScanInput input = new(bench.Now, bench.Image, []);
        KernelState one = before, other = before;
        ScanKernel.Scan(bench.Configuration, ref one, input, ref clean);
        ScanKernel.Scan(bench.Configuration, ref other, input, ref dirty);
        Assert.Equal(Said(clean), Said(dirty));
        Assert.True(Bytes(ref one).SequenceEqual(Bytes(ref other)));
    }

    private static object[] Said(ScanRecord r) =>
    [
        r.Scan, r.Now, r.StateHash, r.Outputs, r.Step, r.Repeat, r.Latched, r.NewlyLatched, r.Causes, r.NewCauses, r.Before, r.State, r.Phase,
        r.Fired, r.Finished, r.AtStandstill, r.ReceiptCount, r.InterlockCount, r.Demands[0],
    ];

    /// <summary>A whole run with a trip in its second repeat, its state copied and the original spoilt at one scan.</summary>
    private static List<ulong> Hashes(int copiedAt)
    {
        ScriptedInterlock heat = new();
        KernelBench bench = new(new RigBuilder().Times(2).With("heat", heat));
        List<ulong> hashes = [];
        bench.OnScan = () =>
        {
            hashes.Add(bench.Record.StateHash);
            if (hashes.Count == copiedAt)
            {
                KernelState copy = bench.State;
                Bytes(ref bench.State).Fill(0xFF);
                bench.State = copy;
            }

            heat.Action = bench.Record is { Repeat: 2, State: RigState.Hold } ? DemandAction.StopOutput : DemandAction.Proceed;
            bench.Read(ChannelNames.RotorSpeed, bench.Rig is RigState.SpinUp or RigState.Hold ? 3000 + hashes.Count % 7 : 0);
        };
        bench.ToWarning().ScanUntil(() => bench.Record.Latched != 0).ToStandstill();
        return hashes;
    }

    private static Span<byte> Bytes(ref KernelState state) => MemoryMarshal.AsBytes(MemoryMarshal.CreateSpan(ref state, 1));

    private static int SumOfFields(Type type)
    {
        if (type.IsEnum)
            return SumOfFields(type.GetEnumUnderlyingType());
        if (type.IsPrimitive)
            return SizeOf(type);
        int times = type.GetCustomAttribute<InlineArrayAttribute>()?.Length ?? 1;
        return times * type.GetFields(BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic).Sum(f => SumOfFields(f.FieldType));
    }

    private static int SizeOf(Type type) => (int)typeof(Unsafe).GetMethod(nameof(Unsafe.SizeOf))!.MakeGenericMethod(type).Invoke(null, null)!;

#pragma warning disable CS0169, CS0649, IDE0051 // Only its layout matters.
    private struct Padded
    {
        private readonly long _whole;
        private readonly byte _part;
    }
#pragma warning restore CS0169, CS0649, IDE0051
}

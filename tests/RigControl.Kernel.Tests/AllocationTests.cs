namespace RigControl.Kernel.Tests;

/// <summary>A scan leaves nothing for the collector, whose pauses would stop the loop.</summary>
public class AllocationTests
{
    private static long BytesOf(Action work)
    {
        work();
        long before = GC.GetAllocatedBytesForCurrentThread();
        work();
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    private static KernelBench Rig(int times = 1)
    {
        RigBuilder rig = new RigBuilder().Times(times);
        for (int i = 0; i < 10; i++)
            rig.With($"interlock-{i}", new ScriptedInterlock());
        return new KernelBench(rig);
    }

    [Fact]
    public void The_measure_itself_sees_an_allocation() => Assert.True(BytesOf(() => GC.KeepAlive(new object())) >= 16);

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void A_scan_allocates_nothing_in_any_state(RigState state)
    {
        KernelBench bench = Rig().To(state);
        Assert.Equal(0, BytesOf(() =>
        {
            for (int i = 0; i < 20; i++)
                bench.Scan();
        }));
        Assert.Equal(state, bench.Rig);
    }

    [Fact]
    public void A_whole_run_with_all_its_transitions_allocates_nothing()
    {
        KernelBench bench = Rig(times: 1000).ToSpinUp();
        Action run = () =>
        {
            for (int i = 0; i < 2000; i++)
            {
                bench.Read(ChannelNames.RotorSpeed, bench.Rig is RigState.SpinUp or RigState.Hold ? 3000 : 0);
                bench.Scan();
            }
        };
        run();
        int before = bench.Record.Repeat;
        Assert.Equal(0, BytesOf(run));
        Assert.True(bench.Record.Repeat > before + 2);
    }

    [Fact]
    public void A_trip_allocates_nothing()
    {
        KernelBench bench = Rig().ToHold();
        KernelState held = bench.State;
        Command stop = bench.Act(CommandKind.Stop);
        Assert.Equal(0, BytesOf(() =>
        {
            bench.State = held;
            bench.Now = held.Now + TimeSpan.FromMilliseconds(5);
            bench.Scan(stop);
        }));
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Fact]
    public void Folding_allocates_nothing()
    {
        FoldBench fold = new(channels: 16, frozenAfter: 4);
        double now = 0;
        Assert.Equal(0, BytesOf(() =>
        {
            for (int i = 0; i < 100; i++, now += 5)
            {
                for (int channel = 0; channel < 16; channel++)
                    fold.Add(now, channel % 5 == 0 ? double.NaN : i, channel: channel);
                fold.Close(now);
            }
        }));
    }
}

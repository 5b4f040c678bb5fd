namespace RigControl.Kernel.Tests;

/// <summary>Stop is heard from everywhere, at any time, before anything else.</summary>
public class StopCommandTests
{
    public static TheoryData<RigState, CommandSource> Everywhere()
    {
        TheoryData<RigState, CommandSource> data = [];
        foreach (RigState state in Enum.GetValues<RigState>())
        {
            foreach (CommandSource source in Enum.GetValues<CommandSource>())
                data.Add(state, source);
        }

        return data;
    }

    [Trait("Requirement", "SAF-007")]
    [Theory]
    [MemberData(nameof(Everywhere))]
    public void A_stop_is_accepted_in_every_state_from_everyone(RigState state, CommandSource source)
    {
        KernelBench bench = new KernelBench().To(state);
        Assert.Equal(RefusalReason.None, bench.Give(CommandKind.Stop, source));
        Assert.Equal(RigState.SafeStop, bench.Rig);
        Assert.Equal(source == CommandSource.Host ? TripCause.HostStop : TripCause.StopCommand, bench.Record.Causes);
        Assert.Equal((0, 1000, OutputSwitches.None), (bench.Outputs.Throttle, bench.Outputs.Pulse, bench.Outputs.Switches));
    }

    [Trait("Requirement", "SAF-007")]
    [Theory]
    [InlineData(RigState.SafeStop, CommandKind.Reset)]
    [InlineData(RigState.Idle, CommandKind.Arm)]
    [InlineData(RigState.Idle, CommandKind.Unlock)]
    [InlineData(RigState.Hold, CommandKind.Mark)]
    public void A_stop_wins_over_what_came_before_and_after_it_in_the_same_scan(RigState state, CommandKind other)
    {
        KernelBench bench = new KernelBench().To(state);
        bench.Scan(bench.Act(other), bench.Act(CommandKind.Stop, CommandSource.Network), bench.Act(other));
        Assert.Equal(
            [RefusalReason.Stopped, RefusalReason.None, RefusalReason.Stopped],
            [bench.Record.Receipts[0].Refusal, bench.Record.Receipts[1].Refusal, bench.Record.Receipts[2].Refusal]);
        Assert.Equal((RigState.SafeStop, OutputSwitches.None), (bench.Rig, bench.Outputs.Switches));
    }

    [Fact]
    public void A_stop_wins_over_an_awaited_start()
    {
        KernelBench bench = new KernelBench().ToAwaitingStart();
        bench.Scan(bench.Act(CommandKind.Start), bench.Act(CommandKind.Stop));
        bench.OnScan = () => Assert.Equal(OutputSwitches.None, bench.Outputs.Switches);
        bench.ScanFor(10);
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Fact]
    public void A_stop_ends_a_stop_under_power()
    {
        ScriptedInterlock heat = new();
        KernelBench bench = new KernelBench(new RigBuilder().With("heat", heat)).ToHold();
        heat.Action = DemandAction.StopOutput;
        Assert.True(bench.Scan().Outputs.Power);
        bench.Do(CommandKind.Stop);
        Assert.False(bench.Outputs.Power);
    }

    [Trait("Requirement", "SAF-008")]
    [Theory]
    [InlineData(CommandSource.Network)]
    [InlineData(CommandSource.Host)]
    public void Only_the_bench_may_raise_energy(CommandSource source)
    {
        Assert.Equal(RefusalReason.NotFromHere, new KernelBench().ToStandstill().Give(CommandKind.Reset, source));
        Assert.Equal(RefusalReason.NotFromHere, new KernelBench().ToIdle().Give(CommandKind.Arm, source));
        Assert.Equal(RefusalReason.NotFromHere, new KernelBench().ToIdle().Give(CommandKind.Unlock, source));
        Assert.Equal(RefusalReason.NotFromHere, new KernelBench().ToAwaitingStart().Give(CommandKind.Start, source));
    }

    [Fact]
    public void A_source_or_a_kind_that_does_not_exist_is_refused()
    {
        KernelBench bench = new KernelBench().ToStandstill();
        Assert.Equal(RefusalReason.NotFromHere, bench.Give(CommandKind.Reset, (CommandSource)9));
        Assert.Equal(RefusalReason.NotConsidered, bench.Give((CommandKind)9));
    }
}

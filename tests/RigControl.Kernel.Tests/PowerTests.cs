namespace RigControl.Kernel.Tests;

/// <summary>When the output power goes, and the lid may be released.</summary>
public class PowerTests
{
    private readonly ScriptedInterlock _heat = new();

    private KernelBench Rig() => new(new RigBuilder().With("heat", _heat));

    [Trait("Requirement", "SAF-022")]
    [Theory]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void A_category_1_stop_keeps_the_power_for_the_stopping_time_and_no_longer(RigState state)
    {
        KernelBench bench = Rig().To(state);
        _heat.Action = DemandAction.StopOutput;
        bench.Scan();
        TimeSpan stopped = bench.Record.Now;
        bench.OnScan = () => Assert.Equal(0, bench.Outputs.Throttle);
        bench.ScanUntil(() => !bench.Outputs.Power);
        Assert.Equal(TimeSpan.FromMilliseconds(200), bench.Record.Now - stopped);
        bench.OnScan = () => Assert.False(bench.Outputs.Power);
        bench.ScanFor(5);
    }

    [Fact]
    public void A_category_1_stop_of_an_article_without_a_stopping_time_cuts_at_once()
    {
        RigBuilder rig = new RigBuilder().With("heat", _heat);
        rig.Article = rig.Article with { StoppingTime = TimeSpan.Zero };
        KernelBench bench = new KernelBench(rig).ToHold();
        _heat.Action = DemandAction.StopOutput;
        Assert.False(bench.Scan().Outputs.Power);
    }

    [Fact]
    public void A_deadline_stops_under_power()
    {
        KernelBench bench = Rig().ToCoastDown().ScanUntil(RigState.SafeStop);
        Assert.Equal((TripCause.Deadline, true), (bench.Record.NewCauses, bench.Outputs.Power));
    }

    [Trait("Requirement", "SAF-022")]
    [Fact]
    public void A_power_cut_that_comes_with_a_category_1_stop_wins()
    {
        ScriptedInterlock lid = new();
        KernelBench bench = new KernelBench(new RigBuilder().With("heat", _heat).With("lid", lid)).ToHold();
        (_heat.Action, lid.Action) = (DemandAction.StopOutput, DemandAction.CutPower);
        Assert.False(bench.Scan().Outputs.Power);
    }

    [Fact]
    public void Idle_has_no_power() => Assert.Equal(OutputSwitches.None, Rig().ToIdle().Outputs.Switches);

    [Fact]
    public void The_lid_is_released_in_idle_at_standstill_and_locked_again_on_request()
    {
        KernelBench bench = Rig().ToIdle().Do(CommandKind.Unlock);
        Assert.Equal(OutputSwitches.Unlocked, bench.Outputs.Switches);
        Assert.Equal(OutputSwitches.None, bench.Do(CommandKind.Lock).Outputs.Switches);
    }

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void An_unlock_anywhere_else_is_refused(RigState state)
    {
        KernelBench bench = Rig().To(state);
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Unlock));
        Assert.False(bench.Outputs.Unlocked);
    }

    [Fact]
    public void An_unlock_in_idle_while_the_rotor_still_turns_is_refused()
    {
        KernelBench bench = Rig().ToCoastDown().Read(ChannelNames.RotorSpeed, 45).ScanUntil(RigState.Idle);
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Unlock));
        Assert.False(bench.Outputs.Unlocked);
    }

    [Trait("Requirement", "SAF-021")]
    [Fact]
    public void A_released_lid_locks_when_the_rotor_moves_or_cannot_be_seen()
    {
        KernelBench bench = Rig().ToIdle().Do(CommandKind.Unlock).Read(ChannelNames.RotorSpeed, 200).Scan();
        Assert.False(bench.Outputs.Unlocked);
        bench.Read(ChannelNames.RotorSpeed, 0).ScanFor(0.2);
        Assert.True(bench.Outputs.Unlocked);
        Assert.False(bench.Lose(ChannelNames.RotorSpeed).Scan().Outputs.Unlocked);
    }

    [Fact]
    public void A_safe_stop_takes_back_a_release()
    {
        KernelBench bench = Rig().ToIdle().Do(CommandKind.Unlock).Do(CommandKind.Stop);
        Assert.False(bench.Outputs.Unlocked);
        Assert.False(bench.Do(CommandKind.Reset).Outputs.Unlocked);
    }

    [Fact]
    public void The_power_of_a_stop_ends_by_the_clock_and_not_because_the_guard_had_to_step_in()
    {
        KernelBench bench = new KernelBench(new RigBuilder().Does(Steps.Arm(), Steps.SpinUp(timeout: 1, until: Steps.Above(ChannelNames.RotorSpeed, 9000)), Steps.CoastDown()));
        TimeSpan stopped = bench.ToSpinUp().ScanUntil(RigState.SafeStop).Record.Now;
        bench.ScanUntil(() => !bench.Outputs.Power);
        Assert.Equal((TripCause.Deadline, Steps.Seconds(0.2)), (bench.Record.Causes, bench.Record.Now - stopped));
    }
}

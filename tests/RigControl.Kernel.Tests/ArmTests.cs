namespace RigControl.Kernel.Tests;

/// <summary>The second act: power on, output at stop.</summary>
public class ArmTests
{
    private readonly ScriptedInterlock _lid = new();

    private KernelBench Rig() => new(new RigBuilder().With("lid", _lid));

    [Fact]
    public void An_arm_in_idle_brings_power_and_no_output()
    {
        KernelBench bench = Rig().ToArming();
        Assert.Equal((RigState.Arming, OutputSwitches.Power | OutputSwitches.OperatorArms), (bench.Rig, bench.Outputs.Switches));
        Assert.Equal((0, 1000), (bench.Outputs.Throttle, bench.Outputs.Pulse));
    }

    [Theory]
    [InlineData(DemandAction.Refuse)]
    [InlineData(DemandAction.StopOutput)]
    [InlineData(DemandAction.CutPower)]
    public void An_arm_against_an_objection_is_refused(DemandAction objection)
    {
        KernelBench bench = Rig().ToIdle();
        _lid.Action = objection;
        Assert.Equal(RefusalReason.InterlockObjects, bench.Give(CommandKind.Arm));
        Assert.Equal((RigState.Idle, OutputSwitches.None), (bench.Rig, bench.Outputs.Switches));
    }

    [Fact]
    public void An_arm_is_refused_while_the_release_of_the_lid_is_wanted()
    {
        KernelBench bench = Rig().ToIdle().Do(CommandKind.Unlock);
        Assert.Equal(RefusalReason.InterlockObjects, bench.Give(CommandKind.Arm));
        bench.Do(CommandKind.Lock);
        Assert.Equal(RefusalReason.None, bench.Give(CommandKind.Arm));
    }

    [Fact]
    public void An_arm_is_refused_while_the_rotor_turns()
    {
        KernelBench bench = Rig().ToIdle().Read(ChannelNames.RotorSpeed, 31);
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Arm));
    }

    [Fact]
    public void An_arm_is_refused_when_the_speed_is_lost()
    {
        KernelBench bench = Rig().ToIdle().Lose(ChannelNames.RotorSpeed);
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Arm));
    }

    [Trait("Requirement", "SAF-003")]
    [Fact]
    public void An_arm_before_a_reset_is_refused() => Assert.Equal(RefusalReason.WrongState, Rig().ToStandstill().Give(CommandKind.Arm));

    [Trait("Requirement", "SAF-003")]
    [Fact]
    public void An_arm_in_the_scan_of_the_reset_is_refused()
    {
        KernelBench bench = Rig().ToStandstill();
        bench.Scan(bench.Act(CommandKind.Reset), bench.Act(CommandKind.Arm));
        Assert.Equal((RefusalReason.None, RefusalReason.WrongState), (bench.Record.Receipts[0].Refusal, bench.Record.Receipts[1].Refusal));
        Assert.Equal(RigState.Idle, bench.Rig);
    }

    [Fact]
    public void An_arm_where_the_procedure_has_no_arm_step_is_refused()
    {
        KernelBench bench = new KernelBench(new RigBuilder().Does(Steps.Rest(5), Steps.Arm(), Steps.SpinUp(), Steps.CoastDown())).ToIdle();
        Assert.Equal(RefusalReason.NotInProcedure, bench.Give(CommandKind.Arm));
    }

    [Fact]
    public void An_arm_after_the_last_repeat_is_refused()
    {
        KernelBench bench = Rig().ToCoastDown().Read(ChannelNames.RotorSpeed, 0).ScanUntil(RigState.Idle).ToStandstill();
        Assert.True(bench.Record.Finished);
        Assert.Equal(RefusalReason.NotInProcedure, bench.Give(CommandKind.Arm));
    }

    [Fact]
    public void An_interlock_that_the_procedure_requires_is_asked_even_if_it_counts_only_where_named()
    {
        ScriptedInterlock failsafe = new() { Action = DemandAction.Refuse };
        RigBuilder rig = new RigBuilder().With("failsafe", failsafe, InterlockScope.NamedSteps);
        rig.Procedure = rig.Procedure with { Requires = ["failsafe"] };
        KernelBench bench = new KernelBench(rig).ToIdle();
        Assert.Equal(RefusalReason.InterlockObjects, bench.Give(CommandKind.Arm));
        failsafe.Action = DemandAction.Proceed;
        Assert.Equal(RefusalReason.None, bench.Give(CommandKind.Arm));
    }

    [Fact]
    public void Arming_is_not_ready_before_the_controller_has_had_its_time()
    {
        KernelBench bench = Rig().ToArming();
        TimeSpan armed = bench.Record.Now;
        bench.ScanUntil(() => bench.Record.Phase == ArmingPhase.AwaitingStart);
        Assert.Equal(TimeSpan.FromMilliseconds(50), bench.Record.Now - armed);
    }

    [Fact]
    public void Arming_is_not_ready_while_an_interlock_would_refuse_a_rise()
    {
        KernelBench bench = Rig().ToArming();
        _lid.Action = DemandAction.Refuse;
        bench.ScanFor(1);
        Assert.Equal((RigState.Arming, ArmingPhase.Preparing), (bench.Rig, bench.Record.Phase));
    }
}

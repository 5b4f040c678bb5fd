namespace RigControl.Kernel.Tests;

/// <summary>The third act, and the warning that follows it.</summary>
public class StartTests
{
    private readonly ScriptedInterlock _lid = new();

    private KernelBench Rig() => new(new RigBuilder().With("lid", _lid));

    [Fact]
    public void A_start_that_is_awaited_begins_the_warning()
    {
        KernelBench bench = Rig().ToWarning();
        Assert.Equal(OutputSwitches.Power | OutputSwitches.Warning, bench.Outputs.Switches);
        Assert.Equal(0, bench.Outputs.Throttle);
    }

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void A_start_that_nobody_awaits_is_refused(RigState state) =>
        Assert.Equal(RefusalReason.WrongState, Rig().To(state).Give(CommandKind.Start));

    [Fact]
    public void A_second_start_during_the_warning_is_refused_and_does_not_lengthen_it()
    {
        KernelBench bench = Rig().ToWarning();
        TimeSpan started = bench.Record.Now;
        bench.ScanFor(1);
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Start));
        bench.ScanUntil(RigState.SpinUp);
        Assert.Equal(Configuration.WarningTime, bench.Record.Now - started);
    }

    [Trait("Requirement", "SAF-003")]
    [Fact]
    public void Arm_and_start_in_one_scan_do_not_start()
    {
        KernelBench bench = Rig().ToIdle();
        bench.Scan(bench.Act(CommandKind.Arm), bench.Act(CommandKind.Start));
        Assert.Equal(RefusalReason.WrongState, bench.Record.Receipts[1].Refusal);
        bench.ScanFor(5);
        Assert.Equal(ArmingPhase.AwaitingStart, bench.Record.Phase);
    }

    [Fact]
    public void A_start_against_an_objection_is_refused()
    {
        KernelBench bench = Rig().ToAwaitingStart();
        _lid.Action = DemandAction.Refuse;
        Assert.Equal(RefusalReason.InterlockObjects, bench.Give(CommandKind.Start));
        Assert.Equal(ArmingPhase.AwaitingStart, bench.Record.Phase);
    }

    [Trait("Requirement", "SAF-004")]
    [Fact]
    public void The_output_rises_after_three_seconds_of_warning_and_not_before()
    {
        KernelBench bench = Rig().ToWarning();
        TimeSpan warned = bench.Record.Now;
        bench.OnScan = () => Assert.True(bench.Outputs.Throttle == 0 || bench.Record.Now - warned >= TimeSpan.FromSeconds(3));
        bench.ScanUntil(() => bench.Outputs.Throttle > 0);
        Assert.InRange((bench.Record.Now - warned).TotalSeconds, 3, 3.01);
    }

    [Fact]
    public void An_objection_at_the_end_of_the_warning_stops_instead_of_rising()
    {
        KernelBench bench = Rig().ToWarning().ScanFor(2);
        _lid.Action = DemandAction.Refuse;
        bench.OnScan = () => Assert.Equal(0, bench.Outputs.Throttle);
        bench.ScanUntil(RigState.SafeStop);
        Assert.Equal(TripCause.Permissive, bench.Record.NewCauses);
    }

    [Fact]
    public void A_lid_that_opens_during_the_warning_stops()
    {
        KernelBench bench = Rig().ToWarning().ScanFor(1);
        _lid.Action = DemandAction.CutPower;
        bench.Scan();
        Assert.Equal((RigState.SafeStop, OutputSwitches.None), (bench.Rig, bench.Outputs.Switches));
    }
}

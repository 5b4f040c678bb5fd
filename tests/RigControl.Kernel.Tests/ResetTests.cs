namespace RigControl.Kernel.Tests;

/// <summary>The one way out of safe-stop.</summary>
public class ResetTests
{
    private readonly ScriptedInterlock _lid = new();

    private KernelBench Rig(ResetPolicy reset = ResetPolicy.Operator) => new(new RigBuilder().With("lid", _lid, reset: reset));

    private KernelBench Tripped(ResetPolicy reset = ResetPolicy.Operator)
    {
        KernelBench bench = Rig(reset).ToHold();
        _lid.Action = DemandAction.CutPower;
        return bench.Scan();
    }

    [Fact]
    public void A_reset_at_standstill_leads_to_idle() => Assert.Equal(RigState.Idle, Rig().ToIdle().Rig);

    [Trait("Requirement", "SAF-002")]
    [Fact]
    public void A_reset_while_the_rotor_turns_is_refused()
    {
        KernelBench bench = Tripped();
        _lid.Action = DemandAction.Proceed;
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Reset));
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Trait("Requirement", "SAF-002")]
    [Fact]
    public void A_reset_while_the_cause_stands_is_refused_and_keeps_the_latch()
    {
        KernelBench bench = Tripped().Read(ChannelNames.RotorSpeed, 0).ToStandstill();
        Assert.Equal(RefusalReason.CauseStands, bench.Give(CommandKind.Reset));
        Assert.Equal((RigState.SafeStop, 1u), (bench.Rig, bench.Record.Latched));
    }

    [Fact]
    public void A_reset_once_the_cause_has_cleared_lets_the_latch_go()
    {
        KernelBench bench = Tripped().Read(ChannelNames.RotorSpeed, 0).ToStandstill();
        _lid.Action = DemandAction.Proceed;
        bench.Do(CommandKind.Reset);
        Assert.Equal((RigState.Idle, 0u), (bench.Rig, bench.Record.Latched));
    }

    [Fact]
    public void A_cause_that_clears_by_itself_stays_latched()
    {
        KernelBench bench = Tripped();
        _lid.Action = DemandAction.Proceed;
        bench.ScanFor(20);
        Assert.Equal((RigState.SafeStop, 1u), (bench.Rig, bench.Record.Latched));
    }

    [Fact]
    public void A_cause_that_needs_a_restart_is_not_reset()
    {
        KernelBench bench = Tripped(ResetPolicy.Restart).Read(ChannelNames.RotorSpeed, 0).ToStandstill();
        _lid.Action = DemandAction.Proceed;
        Assert.Equal(RefusalReason.NeedsRestart, bench.Give(CommandKind.Reset));
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Fact]
    public void A_reset_in_the_scan_that_trips_is_refused()
    {
        KernelBench bench = Rig().ToAwaitingStart();
        _lid.Action = DemandAction.CutPower;
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Reset));
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Fact]
    public void A_reset_in_the_scan_of_a_late_trip_is_refused()
    {
        KernelBench bench = Rig().ToAwaitingStart();
        bench.Now += TimeSpan.FromSeconds(1);
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Reset));
        Assert.Equal((RigState.SafeStop, TripCause.LateScans), (bench.Rig, bench.Record.Causes));
    }

    [Fact]
    public void A_reset_does_not_wipe_away_a_cause_of_the_same_scan()
    {
        KernelBench bench = Rig().ToStandstill();
        bench.Now -= TimeSpan.FromSeconds(0.02);
        Assert.Equal(RefusalReason.CauseStands, bench.Give(CommandKind.Reset));
        Assert.Equal(TripCause.ClockStep, bench.Record.Causes);
    }

    [Theory]
    [InlineData(RigState.Idle)]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void A_reset_anywhere_else_is_refused_and_changes_nothing(RigState state)
    {
        KernelBench bench = Rig().To(state);
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Reset));
        Assert.Equal(state, bench.Rig);
    }

    [Fact]
    public void A_reset_begins_the_procedure_from_its_first_step()
    {
        KernelBench bench = Tripped().Read(ChannelNames.RotorSpeed, 0).ToStandstill();
        _lid.Action = DemandAction.Proceed;
        bench.Do(CommandKind.Reset);
        Assert.Equal((0, 0), (bench.Record.Step, bench.Record.Repeat));
    }
}

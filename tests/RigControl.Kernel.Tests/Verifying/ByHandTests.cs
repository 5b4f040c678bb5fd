namespace RigControl.Kernel.Tests.Verifying;

/// <summary>What a person provokes counts only where the expected cause came, no other, and the output was then seen to stop.</summary>
public class ByHandTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_was_expected_and_seen_in_time_lets_the_verification_go_on(bool unpowered)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand, unpowered).ToProvoking();
        rig.Lid.Action = DemandAction.StopOutput;
        rig.Bench.Scan();
        Assert.Equal(unpowered ? RigState.Hold : RigState.SafeStop, rig.Bench.Rig);
        rig.IsSeenToStop();
        Assert.Equal((RigState.SafeStop, TripCause.Provoked), (rig.Bench.Rig, rig.Causes));
        rig.Lid.Action = DemandAction.Proceed;
        Assert.Equal(RefusalReason.None, rig.Reset());
        Assert.Equal(VerifyingRig.ProvokingStep + 1, rig.Bench.Record.Step);
    }

    [Fact]
    public void Before_its_evidence_was_seen_no_reset_is_taken()
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand with { Allowed = Steps.Seconds(60) }).ToProvoking();
        rig.Lid.Action = DemandAction.StopOutput;
        rig.Bench.Scan();
        rig.Lid.Action = DemandAction.Proceed;
        Assert.Equal(RefusalReason.CauseStands, rig.Reset());
        Assert.False(rig.Bench.Record.Finished);
    }

    [Theory]
    [InlineData(DemandAction.StopOutput, false)]
    [InlineData(DemandAction.Proceed, false)]
    [InlineData(DemandAction.StopOutput, true)]
    public void Another_cause_instead_of_it_or_beside_it_ends_the_verification(DemandAction lid, bool unpowered)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand, unpowered).ToProvoking();
        (rig.Lid.Action, rig.Stop.Action) = (lid, DemandAction.StopOutput);
        rig.Bench.Scan();
        rig.IsSeenToStop().Bench.Scan();
        (rig.Lid.Action, rig.Stop.Action) = (DemandAction.Proceed, DemandAction.Proceed);
        Assert.True(rig.Bench.Record.Finished);
        Assert.Equal(RefusalReason.NotInProcedure, rig.Reset());
    }

    [Fact]
    public void A_stop_command_is_never_what_was_expected_of_the_lid()
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand).ToProvoking();
        rig.Bench.Do(CommandKind.Stop);
        rig.IsSeenToStop().Bench.Scan();
        Assert.True(rig.Bench.Record.Finished);
        Assert.Equal(TripCause.StopCommand, rig.Causes);
    }

    [Fact]
    public void A_consequence_of_it_may_come_with_it()
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand with { Consequences = ["stop"] }).ToProvoking();
        (rig.Lid.Action, rig.Stop.Action) = (DemandAction.StopOutput, DemandAction.StopOutput);
        rig.Bench.Scan();
        Assert.Equal(TripCause.Provoked, rig.IsSeenToStop().Causes);
        (rig.Lid.Action, rig.Stop.Action) = (DemandAction.Proceed, DemandAction.Proceed);
        Assert.Equal(RefusalReason.None, rig.Reset());
    }

    [Fact]
    public void A_consequence_without_the_cause_trips_under_power()
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand with { Consequences = ["stop"] }).ToProvoking();
        rig.Stop.Action = DemandAction.StopOutput;
        rig.Bench.Scan().Scan();
        Assert.Equal((RigState.SafeStop, true), (rig.Bench.Rig, rig.Bench.Record.Finished));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_is_not_seen_in_time_is_unanswered(bool unpowered)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand, unpowered).ToProvoking();
        rig.Lid.Action = DemandAction.StopOutput;
        TimeSpan began = rig.Bench.Scan().Record.Now;
        rig.Bench.ScanUntil(() => rig.Causes != TripCause.None);
        Assert.Equal(TripCause.Unanswered, rig.Causes);
        Assert.Equal(Steps.Seconds(0.105), rig.Bench.Record.Now - began);
    }

    [Fact]
    public void What_was_so_already_before_proves_nothing()
    {
        VerifyingRig rig = new(VerifyingRig.ByHand, unpowered: true);
        rig.Bench.ToWarning().ScanUntil(() => rig.Bench.Record.Step == VerifyingRig.ProvokingStep).Scan();
        rig.Lid.Action = DemandAction.StopOutput;
        rig.Bench.Scan();
        Assert.Equal((RigState.SafeStop, TripCause.Unanswered), (rig.Bench.Rig, rig.Causes));
    }

    [Fact]
    public void Where_nobody_provokes_the_step_ends_at_its_deadline()
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand).ToProvoking();
        TimeSpan entered = rig.Bench.State.StepSince;
        rig.Bench.ScanUntil(RigState.SafeStop);
        Assert.Equal((TripCause.Deadline, Steps.Seconds(2.005)), (rig.Causes, rig.Bench.Record.Now - entered));
        Assert.False(rig.Bench.Outputs.Power);
    }

    [Fact]
    public void A_lowered_limit_is_asked_once_everything_was_read_several_times_and_trips_at_once()
    {
        ScriptedInterlock lower = new() { Action = DemandAction.CutPower };
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand with { Lowered = new LoweredLimit("lid", "Limit", 1) }, lowered: lower).ToProvoking();
        TimeSpan entered = rig.Bench.State.StepSince;
        rig.Bench.ScanUntil(RigState.SafeStop);
        Assert.Equal(Provoking.SettleTime, rig.Bench.Record.Now - entered);
        Assert.Equal((1, 1u), (lower.Calls, rig.Bench.Record.Latched));
        Assert.Equal(TripCause.Provoked, rig.IsSeenToStop().Causes);
        Assert.Equal(1, lower.Calls);
    }
}

namespace RigControl.Kernel.Tests.Verifying;

/// <summary>The radio is lost on purpose while its stick drives through the gate: only what the radio alone can have stopped counts, below the same ceiling as everything.</summary>
public class ThroughGateTests
{
    private static readonly Provocation Lost = VerifyingRig.ByHand with { Name = "radio", Manner = ProvocationManner.ThroughGate, Expected = "receiver" };

    [Trait("Requirement", "SAF-090")]
    [Theory]
    [InlineData(0)]
    [InlineData(1000)]
    public void A_radio_that_falls_silent_is_what_was_expected(double pulse)
    {
        VerifyingRig rig = new VerifyingRig(Lost).ToProvoking();
        Assert.Equal((RigState.SpinUp, true, 0.0), (rig.Bench.Rig, rig.Bench.Outputs.Gate, rig.Bench.Outputs.Throttle));
        rig.Bench.Read(ChannelNames.ReceiverPulse, pulse).Scan();
        rig.IsSeenToStop();
        Assert.Equal(pulse == 0 ? TripCause.Receiver | TripCause.Provoked : TripCause.None, rig.Causes);
        Assert.Equal(pulse != 0, rig.Bench.Outputs.Gate);
    }

    [Trait("Requirement", "SAF-090")]
    [Fact]
    public void With_the_power_off_the_same_is_shown_by_the_pulse_alone_and_power_never_comes()
    {
        VerifyingRig rig = new(Lost, unpowered: true, opens: true);
        List<(bool Gate, bool Power)> seen = [];
        rig.Bench.OnScan = () => seen.Add((rig.Bench.Outputs.Gate, rig.Bench.Outputs.Power));
        rig.ToProvoking().Bench.Read(ChannelNames.RotorSpeed, 0).Read(ChannelNames.ReceiverPulse, 1150).ScanFor(0.2).Read(ChannelNames.ReceiverPulse, 0).Scan();
        Assert.Equal(TripCause.Receiver | TripCause.Provoked, rig.IsSeenToStop().Causes);
        Assert.Contains((true, false), seen);
        Assert.DoesNotContain(seen, s => s.Power);
        Assert.Equal(RefusalReason.None, rig.Reset());
    }

    [Trait("Requirement", "SAF-090")]
    [Fact]
    public void A_receiver_that_holds_its_last_pulse_ends_the_verification_at_the_step_s_deadline()
    {
        VerifyingRig rig = new VerifyingRig(Lost).ToProvoking();
        rig.Bench.Read(ChannelNames.ReceiverPulse, 1150).ScanUntil(RigState.SafeStop);
        Assert.Equal(TripCause.Deadline, rig.Causes);
        Assert.Equal(RefusalReason.NotInProcedure, rig.Reset());
    }

    [Fact]
    public void A_rotor_that_goes_on_after_the_radio_was_lost_is_unanswered()
    {
        VerifyingRig rig = new VerifyingRig(Lost).ToProvoking();
        rig.Bench.Read(ChannelNames.ReceiverPulse, 0).ScanUntil(() => (rig.Causes & TripCause.Unanswered) != 0);
        Assert.False(rig.Bench.Outputs.Power);
        Assert.Equal(RefusalReason.NotInProcedure, rig.Reset());
    }

    [Trait("Requirement", "SAF-090")]
    [Fact]
    public void A_stick_that_was_let_go_before_the_radio_was_lost_has_shown_nothing()
    {
        VerifyingRig rig = new VerifyingRig(Lost).ToProvoking();
        rig.IsSeenToStop();
        rig.Bench.Read(ChannelNames.ReceiverPulse, 0).Scan().Scan();
        Assert.Equal((RigState.SafeStop, TripCause.Receiver, true), (rig.Bench.Rig, rig.Causes, rig.Bench.Record.Finished));
        Assert.Equal(RefusalReason.NotInProcedure, rig.Reset());
    }

    [Fact]
    public void A_stick_that_was_let_go_and_opened_again_counts_as_open()
    {
        VerifyingRig rig = new VerifyingRig(Lost).ToProvoking();
        rig.IsSeenToStop();
        rig.Bench.Read(VerifyingRig.Output, 15).Scan().Read(ChannelNames.ReceiverPulse, 0).Scan();
        Assert.Equal(TripCause.Receiver | TripCause.Provoked, rig.IsSeenToStop().Causes);
    }

    [Trait("Requirement", "SAF-090")]
    [Fact]
    public void A_link_that_returns_after_it_was_lost_opens_nothing_before_and_after_the_reset()
    {
        VerifyingRig rig = new VerifyingRig(Lost).ToProvoking();
        rig.Bench.Read(ChannelNames.ReceiverPulse, 0).Scan();
        rig.IsSeenToStop();
        rig.Bench.OnScan = () => Assert.Equal((false, false), (rig.Bench.Outputs.Gate, rig.Bench.Outputs.Power));
        rig.Bench.Read(ChannelNames.ReceiverPulse, 1150).ScanFor(2);
        Assert.Equal(RefusalReason.None, rig.Reset());
        rig.Bench.ScanFor(2);
        Assert.Equal(RigState.Idle, rig.Bench.Rig);
    }

    [Theory]
    [InlineData(1025, RigState.SpinUp)]
    [InlineData(1026, RigState.SafeStop)]
    [InlineData(0, RigState.SafeStop)]
    public void The_gate_opens_for_it_only_on_a_stick_at_stop(double pulse, RigState expected)
    {
        VerifyingRig rig = new(Lost);
        rig.Bench.Read(ChannelNames.ReceiverPulse, pulse).ToWarning().ScanUntil(() => rig.Bench.Record.Step == VerifyingRig.ProvokingStep);
        Assert.Equal((expected, expected == RigState.SafeStop ? TripCause.Receiver : TripCause.None), (rig.Bench.Rig, rig.Causes));
    }

    [Fact]
    public void A_gate_that_is_open_already_stays_so_whatever_the_stick()
    {
        VerifyingRig rig = new(Lost, opens: true);
        rig.Bench.ToWarning().ScanUntil(() => rig.Bench.Outputs.Gate).Read(ChannelNames.ReceiverPulse, 1150);
        List<bool> open = [];
        rig.Bench.OnScan = () => open.Add(rig.Bench.Outputs.Gate);
        rig.Bench.ScanUntil(() => rig.Bench.Record.Step == VerifyingRig.ProvokingStep).Scan();
        Assert.DoesNotContain(false, open);
    }

    [Trait("Requirement", "SAF-090")]
    [Theory]
    [InlineData(1201, false)]
    [InlineData(1201.5, true)]
    [InlineData(799, false)]
    [InlineData(798.5, true)]
    public void A_stick_above_the_ceiling_s_throttle_cuts_the_power(double pulse, bool cut)
    {
        VerifyingRig rig = new VerifyingRig(Lost).ToProvoking();
        rig.Bench.Read(ChannelNames.ReceiverPulse, pulse).Scan();
        Assert.Equal(cut ? TripCause.VerificationCeiling : TripCause.None, rig.Causes);
        Assert.Equal(!cut, rig.Bench.Outputs.Power);
    }

    [Theory]
    [InlineData(1601, TripCause.None)]
    [InlineData(1602, TripCause.VerificationCeiling)]
    [InlineData(1399, TripCause.None)]
    [InlineData(1398, TripCause.VerificationCeiling)]
    public void On_a_controller_with_two_sides_either_way_counts(double pulse, TripCause expected)
    {
        VerifyingRig rig = new VerifyingRig(Lost, controller: RigBuilder.TwoWay).ToProvoking();
        Assert.Equal(expected, rig.Bench.Read(ChannelNames.ReceiverPulse, pulse).Scan().Record.Causes);
    }

    [Fact]
    public void A_ceiling_nearer_to_stop_than_a_stick_can_be_told_from_it_takes_a_stick_at_stop()
    {
        VerifyingRig rig = new VerifyingRig(Lost, throttle: 0.01).ToProvoking();
        Assert.Equal(TripCause.None, rig.Bench.Read(ChannelNames.ReceiverPulse, 1026).Scan().Record.Causes);
        Assert.Equal(TripCause.VerificationCeiling, rig.Bench.Read(ChannelNames.ReceiverPulse, 1026.5).Scan().Record.Causes);
    }

    [Fact]
    public void With_the_gate_shut_the_stick_is_nobody_s_business()
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand).ToProvoking();
        Assert.Equal(TripCause.None, rig.Bench.Read(ChannelNames.ReceiverPulse, 2000).Scan().Record.Causes);
    }
}

namespace RigControl.Kernel.Tests.Verifying;

/// <summary>What the host provokes itself: what it puts out then, from when, and what must be seen of it.</summary>
public class ByHostTests
{
    [Theory]
    [InlineData(ProvocationManner.Silence, true, false, 0.0, 1000.0)]
    [InlineData(ProvocationManner.CeasedPulses, false, true, 0.0, 0.0)]
    [InlineData(ProvocationManner.PowerCut, false, false, 0.2, 1200.0)]
    [InlineData(ProvocationManner.Rest, false, true, 0.0, 1000.0)]
    public void It_begins_after_three_tenths_of_a_second_and_goes_on_once_it_is_seen(ProvocationManner manner, bool silent, bool power, double throttle, double pulse)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHost(manner)).ToProvoking();
        TimeSpan entered = rig.Bench.State.StepSince;
        Assert.Equal((false, true), (rig.Bench.Outputs.Silent, rig.Bench.Outputs.Power));
        Assert.Equal(manner == ProvocationManner.Rest ? 0 : 0.2, rig.Bench.Outputs.Throttle);

        rig.Bench.ScanUntil(() => (rig.Bench.State.Flags & StateFlags.Provoking) != 0);

        Assert.Equal(Steps.Seconds(0.3), rig.Bench.Record.Now - entered);
        OutputImage out_ = rig.Bench.Outputs;
        Assert.Equal((silent, power, throttle, pulse), (out_.Silent, out_.Power, out_.Throttle, out_.Pulse));
        Assert.Equal((RigState.SafeStop, TripCause.Provoked), (rig.IsSeenToStop().Bench.Rig, rig.Causes));
        Assert.Equal((false, false, 0.0), (rig.Bench.Outputs.Silent, rig.Bench.Outputs.Power, rig.Bench.Outputs.Throttle));
        Assert.Equal(RefusalReason.None, rig.Reset());
        Assert.Equal(VerifyingRig.ProvokingStep + 1, rig.Bench.Record.Step);
    }

    [Theory]
    [InlineData(ProvocationManner.Silence)]
    [InlineData(ProvocationManner.CeasedPulses)]
    [InlineData(ProvocationManner.PowerCut)]
    public void What_is_not_seen_in_time_is_unanswered_and_ends_the_verification(ProvocationManner manner)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHost(manner)).ToProvoking();
        TimeSpan entered = rig.Bench.State.StepSince;
        rig.Bench.ScanUntil(RigState.SafeStop);
        Assert.Equal((TripCause.Unanswered, Steps.Seconds(0.405)), (rig.Causes, rig.Bench.Record.Now - entered));
        Assert.Equal(RefusalReason.NotInProcedure, rig.Reset());
    }

    [Theory]
    [InlineData(ProvocationManner.Silence, TripCause.Unanswered)]
    [InlineData(ProvocationManner.PowerCut, TripCause.Unanswered)]
    [InlineData(ProvocationManner.Rest, TripCause.Provoked)]
    public void What_was_so_already_proves_nothing_but_rest(ProvocationManner manner, TripCause expected)
    {
        VerifyingRig rig = new(VerifyingRig.ByHost(manner));
        rig.Bench.ToWarning().ScanUntil(() => rig.Bench.Record.Step == VerifyingRig.ProvokingStep).ScanUntil(RigState.SafeStop);
        Assert.Equal(expected, rig.Causes);
    }

    [Theory]
    [InlineData(true, RigState.Hold)]
    [InlineData(false, RigState.SafeStop)]
    public void A_consequence_does_not_trip_while_it_lasts_and_anything_else_does(bool follows, RigState expected)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHost(ProvocationManner.Silence) with { Consequences = follows ? ["stop"] : [] }).ToProvoking();
        rig.Bench.ScanUntil(() => rig.Bench.Outputs.Silent);
        rig.Stop.Action = DemandAction.StopOutput;
        Assert.Equal(expected, rig.Bench.Scan().Rig);
    }
}

namespace RigControl.Kernel.Tests.Verifying;

/// <summary>What stands in for the failsafe proof while that is being got.</summary>
public class CeilingTests
{
    [Theory]
    [InlineData(500, RigState.Hold)]
    [InlineData(-500, RigState.Hold)]
    [InlineData(500.5, RigState.SafeStop)]
    [InlineData(-500.5, RigState.SafeStop)]
    public void Above_its_speed_in_either_direction_the_power_is_cut(double speed, RigState expected)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand).ToProvoking();
        rig.Bench.Read(ChannelNames.RotorSpeed, speed).Scan();
        Assert.Equal((expected, expected == RigState.SafeStop ? TripCause.VerificationCeiling : TripCause.None), (rig.Bench.Rig, rig.Causes));
        Assert.Equal(expected == RigState.Hold, rig.Bench.Outputs.Power);
    }

    [Theory]
    [InlineData(false, TripCause.VerificationCeiling)]
    [InlineData(true, TripCause.None)]
    public void A_speed_that_cannot_be_read_cuts_the_power_where_there_is_any(bool unpowered, TripCause expected)
    {
        VerifyingRig rig = new VerifyingRig(VerifyingRig.ByHand, unpowered).ToProvoking();
        rig.Bench.Lose(ChannelNames.RotorSpeed).Scan();
        Assert.Equal(expected, rig.Causes);
    }

    [Fact]
    public void Where_nothing_is_energised_a_rotor_turned_by_hand_trips_nothing()
    {
        VerifyingRig rig = new(VerifyingRig.ByHand);
        rig.Bench.ToIdle().Read(ChannelNames.RotorSpeed, 600).Scan();
        Assert.Equal((RigState.Idle, TripCause.None), (rig.Bench.Rig, rig.Causes));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_power_goes_on_only_where_the_step_wants_it(bool unpowered)
    {
        VerifyingRig rig = new(VerifyingRig.ByHand, unpowered);
        List<bool> powered = [];
        rig.Bench.OnScan = () => powered.Add(rig.Bench.Outputs.Power);
        rig.ToProvoking();
        Assert.Equal(!unpowered, powered.Any(p => p));
        Assert.Equal(0.2, rig.Bench.Outputs.Throttle);
    }

    // What stands between host and output has its causes reset meanwhile.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Arming_takes_the_controller_s_time_with_power_and_without(bool unpowered)
    {
        VerifyingRig rig = new(VerifyingRig.ByHand, unpowered, controller: RigBuilder.OneWay with { ArmingTime = Steps.Seconds(0.5) });
        rig.Bench.ToArming();
        TimeSpan armed = rig.Bench.Record.Now;
        rig.Bench.ScanUntil(() => rig.Bench.Record.Phase == ArmingPhase.AwaitingStart);
        Assert.Equal(0.5, (rig.Bench.Record.Now - armed).TotalSeconds, 0.011);
    }
}

namespace RigControl.Physics.Tests;

public class SpeedControllerStateTests
{
    private const double Dt = 0.01;
    private static readonly SpeedController OneWay = new();

    [Fact]
    public void A_controller_that_nobody_powered_drives_nothing()
    {
        var state = new SpeedControllerState();
        For(ref state, OneWay, 2000, 5, powered: false);
        Assert.False(state.Armed);
        Assert.Equal(0, state.Duty);
    }

    [Fact]
    public void It_arms_after_the_arming_time_at_stop_and_not_before()
    {
        var state = new SpeedControllerState();
        For(ref state, OneWay, 1000, 0.98);
        Assert.False(state.Armed);
        For(ref state, OneWay, 1000, 0.04);
        Assert.True(state.Armed);
    }

    [Fact]
    public void Throttle_at_power_on_never_arms_it()
    {
        var state = new SpeedControllerState();
        For(ref state, OneWay, 1600, 10);
        Assert.False(state.Armed);
        Assert.Equal(0, state.Duty);
    }

    [Fact]
    public void A_blip_of_throttle_starts_the_arming_time_again()
    {
        var state = new SpeedControllerState();
        For(ref state, OneWay, 1000, 0.9);
        For(ref state, OneWay, 1300, Dt);
        For(ref state, OneWay, 1000, 0.9);
        Assert.False(state.Armed);
    }

    [Fact]
    public void Once_armed_the_duty_follows_the_pulse()
    {
        SpeedControllerState state = Armed(OneWay);
        For(ref state, OneWay, 1600, 1);
        Near.Relative(0.6, state.Duty, 1e-12);
    }

    [Fact]
    public void Duty_rises_no_faster_than_it_may_and_falls_at_once()
    {
        SpeedControllerState state = Armed(OneWay);
        For(ref state, OneWay, 2000, Dt);
        Near.Relative(OneWay.DutyRise * Dt, state.Duty, 1e-9);
        For(ref state, OneWay, 2000, 1);
        Assert.Equal(1, state.Duty);
        For(ref state, OneWay, 1000, Dt);
        Assert.Equal(0, state.Duty);
    }

    [Fact]
    public void It_stops_and_disarms_when_pulses_cease_for_its_timeout()
    {
        SpeedControllerState state = Armed(OneWay);
        For(ref state, OneWay, 2000, 1);
        For(ref state, OneWay, 0, OneWay.PulseTimeout - Dt);
        Assert.Equal(1, state.Duty);
        For(ref state, OneWay, 0, 2 * Dt);
        Assert.False(state.Armed);
        Assert.Equal(0, state.Duty);
    }

    [Fact]
    public void After_silence_only_stop_for_the_arming_time_brings_it_back()
    {
        SpeedControllerState state = Armed(OneWay);
        For(ref state, OneWay, 0, 1);
        For(ref state, OneWay, 2000, 5);
        Assert.Equal(0, state.Duty);
        For(ref state, OneWay, 1000, 1.1);
        For(ref state, OneWay, 2000, 1);
        Assert.Equal(1, state.Duty);
    }

    [Fact]
    public void A_controller_that_runs_on_keeps_its_last_demand_without_pulses()
    {
        SpeedController stubborn = OneWay with { RunsOnWithoutPulses = true };
        SpeedControllerState state = Armed(stubborn);
        For(ref state, stubborn, 1700, 1);
        For(ref state, stubborn, 0, 10);
        Near.Relative(0.7, state.Duty, 1e-12);
    }

    [Fact]
    public void Even_a_controller_that_runs_on_ends_when_its_power_goes()
    {
        SpeedController stubborn = OneWay with { RunsOnWithoutPulses = true };
        SpeedControllerState state = Armed(stubborn);
        For(ref state, stubborn, 1700, 1);
        For(ref state, stubborn, 0, Dt, powered: false);
        Assert.Equal(0, state.Duty);
        For(ref state, stubborn, 1700, 5);
        Assert.Equal(0, state.Duty);
    }

    [Fact]
    public void It_brakes_at_stop_only_where_it_is_made_to_and_only_when_armed()
    {
        SpeedController braking = OneWay with { BrakesAtStop = true };
        var state = new SpeedControllerState();
        For(ref state, braking, 1000, 0.5);
        Assert.False(state.Braking);
        For(ref state, braking, 1000, 1);
        Assert.True(state.Braking);
        For(ref state, braking, 1500, Dt);
        Assert.False(state.Braking);
        Assert.False(Armed(OneWay).Braking);
    }

    [Fact]
    public void A_two_way_controller_passes_through_zero_before_it_reverses()
    {
        SpeedController twoWay = OneWay with { Mode = ControllerMode.TwoWay, StopPulse = 1500 };
        SpeedControllerState state = Armed(twoWay);
        For(ref state, twoWay, 2000, 1);
        For(ref state, twoWay, 1000, Dt);
        Assert.Equal(0, state.Duty);
        For(ref state, twoWay, 1000, 1);
        Assert.Equal(-1, state.Duty);
    }

    [Fact]
    public void A_servo_moves_to_its_position_and_stays_there_without_pulses()
    {
        var servo = new SpeedController { Mode = ControllerMode.Servo, StopPulse = 1500, DutyRise = 4 };
        var state = new SpeedControllerState();
        For(ref state, servo, 2000, 0.1);
        Near.Relative(0.4, state.Position, 1e-9);
        For(ref state, servo, 2000, 1);
        Assert.Equal(1, state.Position);
        For(ref state, servo, 0, 5);
        Assert.Equal(1, state.Position);
        Assert.Equal(0, state.Duty);
    }

    [Fact]
    public void A_servo_without_power_stays_where_it_was()
    {
        var servo = new SpeedController { Mode = ControllerMode.Servo, StopPulse = 1500 };
        var state = new SpeedControllerState();
        For(ref state, servo, 1750, 1);
        For(ref state, servo, 1000, 1, powered: false);
        Near.Relative(0.5, state.Position, 1e-12);
    }

    private static SpeedControllerState Armed(SpeedController data)
    {
        var state = new SpeedControllerState();
        For(ref state, data, data.StopPulse, data.ArmingTime + Dt);
        Assert.True(state.Armed);
        return state;
    }

    private static void For(ref SpeedControllerState state, SpeedController data, double pulse, double time, bool powered = true)
    {
        for (int i = 0; i < (int)Math.Round(time / Dt); i++)
            state.Advance(data, pulse, powered, Dt);
    }
}

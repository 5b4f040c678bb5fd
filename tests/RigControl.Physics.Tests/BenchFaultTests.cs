namespace RigControl.Physics.Tests;

/// <summary>What breaks, and what the bench then does.</summary>
public class BenchFaultTests
{
    private static readonly BenchParameters Default = new();

    [Fact]
    public void A_stop_pressed_at_speed_cuts_the_power_and_the_rotor_coasts()
    {
        Session session = Spinning();
        session.Bench.Faults.StopPressed = true;
        session.Pulse(1600, 0.02);
        Assert.False(session.Truth.ContactorClosed);
        Assert.False(session.Truth.Driven);
        Assert.Equal(0, session.Truth.MotorCurrent);
        Assert.True(session.Truth.StopPressed);
        Assert.True(session.Truth.Speed > 500);
    }

    [Fact]
    public void A_lid_torn_open_cuts_the_power()
    {
        Session session = Spinning();
        session.Bench.Faults.LidForced = true;
        session.Pulse(1600, 0.02);
        Assert.False(session.Truth.LidClosed);
        Assert.False(session.Truth.ContactorClosed);
        Assert.False(session.Bench.Readings.LidContactA);
        Assert.True(session.Bench.Readings.LidContactB);
    }

    [Fact]
    public void A_stuck_pulse_ignores_stop_and_only_cutting_the_power_helps()
    {
        Session session = Spinning();
        session.Bench.Faults.StuckPulse = 1600;
        double before = session.Truth.Speed;
        Assert.InRange(session.Pulse(1000, 3).Truth.Speed, 0.95 * before, 1.05 * before);
        Assert.True(session.Off(3).Truth.Speed < 0.9 * before);
    }

    [Fact]
    public void A_runaway_goes_to_full_output_within_its_current_limit()
    {
        Session session = new Session(Default).Arm();
        session.Bench.Faults.ControllerRunaway = true;
        double highest = 0;
        session.Drive(new BenchDrive(1000, true, false), 4, truth => highest = Math.Max(highest, truth.MotorCurrent));
        Assert.Equal(1, session.Truth.Duty);
        Assert.True(session.Truth.Speed > 1200);
        Assert.Equal(Default.Controller.CurrentLimit, highest, 9);
    }

    [Fact]
    public void A_shorted_controller_turns_the_rotor_as_soon_as_there_is_power_and_knows_no_limit()
    {
        var session = new Session(Default);
        session.Bench.Faults.ControllerShorted = true;
        session.Drive(new BenchDrive(0, false, false), 1);
        Assert.Equal(0, session.Truth.Speed);
        double highest = 0;
        session.Drive(new BenchDrive(0, true, false), 2, truth => highest = Math.Max(highest, truth.HighestPackCurrent));
        Assert.True(highest > 2 * Default.Controller.CurrentLimit);
        Assert.True(session.Truth.Speed > 1200);
    }

    [Fact]
    public void A_shorted_controller_stops_driving_when_the_power_is_cut()
    {
        var session = new Session(Default);
        session.Bench.Faults.ControllerShorted = true;
        session.Drive(new BenchDrive(0, true, false), 2).Off(0.1);
        Assert.False(session.Truth.Driven);
        Assert.Equal(0, session.Truth.MotorCurrent);
    }

    [Fact]
    public void A_welded_contactor_keeps_a_runaway_running_and_the_lid_locked()
    {
        Session session = Spinning();
        session.Bench.Faults.ContactorWelded = true;
        session.Bench.Faults.ControllerRunaway = true;
        session.Drive(new BenchDrive(0, false, true), 5);
        Assert.True(session.Truth.Driven);
        Assert.True(session.Truth.BoltHome);
        Assert.True(session.Bench.Readings.ContactorClosed);
    }

    [Fact]
    public void With_a_welded_contactor_ceasing_pulses_still_stop_a_healthy_controller()
    {
        Session session = Spinning();
        session.Bench.Faults.ContactorWelded = true;
        session.Off(0.2);
        Assert.True(session.Truth.ContactorClosed);
        Assert.False(session.Truth.Driven);
    }

    [Fact]
    public void A_jammed_rotor_stops_within_a_tenth_of_a_second_and_the_winding_heats_up()
    {
        Session session = Spinning();
        double warm = session.Truth.WindingTemperature;
        session.Bench.Faults.RotorJammed = true;
        Assert.Equal(0, session.Pulse(1600, 0.1).Truth.Speed);
        session.Pulse(1600, 10);
        Assert.True(session.Truth.WindingTemperature > warm + 15);
        Assert.Equal(Default.Controller.CurrentLimit, session.Truth.MotorCurrent, 9);
    }

    [Fact]
    public void A_hot_winding_takes_more_power_for_the_same_current()
    {
        var session = new Session(Default).Arm();
        session.Bench.Faults.RotorJammed = true;
        session.Pulse(1600, 20);
        double before = session.Truth.Energy.WindingHeat;
        double power = (session.Pulse(1600, 1).Truth.Energy.WindingHeat - before) / 1;
        double current = session.Truth.MotorCurrent;
        Near.Relative(current * current * Default.Motor.ResistanceAt(session.Truth.WindingTemperature), power, 5e-3);
        Assert.True(power > 1.1 * current * current * Default.Motor.Resistance);
    }

    [Fact]
    public void A_failing_bearing_shortens_the_coast_down()
    {
        Session healthy = Spinning(), rough = Spinning();
        rough.Bench.Faults.AddedFriction = 0.02;
        Assert.True(rough.Off(3).Truth.Speed < 0.75 * healthy.Off(3).Truth.Speed);
    }

    [Fact]
    public void A_slow_contactor_opens_later_by_what_was_added()
    {
        Session session = Spinning();
        session.Bench.Faults.ActuatorDelay = 0.3;
        Assert.True(session.Off(0.3).Truth.ContactorClosed);
        Assert.False(session.Off(0.02).Truth.ContactorClosed);
    }

    [Fact]
    public void A_silent_tachometer_hides_a_turning_rotor()
    {
        Session session = Spinning();
        session.Bench.Faults.Tachometer = TachometerFault.Silent;
        session.Pulse(1600, 5);
        Assert.True(session.Truth.Speed > 500);
        Assert.True(session.Bench.Tachometer.Speed(Default.Tachometer) < 2);
    }

    [Fact]
    public void A_doubling_tachometer_reads_twice_the_speed()
    {
        Session session = Spinning();
        session.Bench.Faults.Tachometer = TachometerFault.Doubled;
        session.Pulse(1600, 1);
        Near.Relative(2 * session.Truth.Speed, session.Bench.Tachometer.Speed(Default.Tachometer), 3e-3);
    }

    [Fact]
    public void Heat_from_outside_warms_the_case_of_a_motor_at_rest()
    {
        var session = new Session(Default);
        session.Bench.Faults.AddedHeat = 30;
        session.Off(60);
        Assert.True(session.Truth.CaseTemperature > 35);
        Assert.True(session.Truth.CaseTemperature > session.Truth.WindingTemperature);
    }

    [Fact]
    public void A_lost_radio_shows_in_the_reading()
    {
        var bench = new Bench(Default, 1);
        Assert.True(bench.Readings.RadioLinked);
        bench.Faults.RadioLost = true;
        Assert.False(bench.Readings.RadioLinked);
    }

    [Fact]
    public void A_lying_lid_contact_changes_the_reading_and_not_the_truth()
    {
        var session = new Session(Default);
        session.Bench.Faults.LidContactB = ContactFault.StuckClosed;
        session.Off(0.01);
        Assert.True(session.Bench.Readings.LidContactA);
        Assert.True(session.Bench.Readings.LidContactB);
        Assert.True(session.Truth.LidClosed);
    }

    [Fact]
    public void Readings_that_nobody_took_are_those_of_an_unsafe_rig()
    {
        BenchReadings readings = default;
        Assert.False(readings.LidContactA || readings.BoltHome || readings.StopCircuitClosed || readings.RadioLinked);
    }

    [Fact]
    public void A_healed_bench_can_be_armed_and_spun_again()
    {
        Session session = Spinning();
        session.Bench.Faults = new BenchFaults { StopPressed = true, RotorJammed = true, Tachometer = TachometerFault.Silent };
        session.Pulse(1000, 2);
        session.Bench.Faults = default;
        Assert.True(session.Arm().Pulse(1600, 3).Truth.Speed > 500);
    }

    private static Session Spinning() => new Session(Default).Arm().Pulse(1600, 4);
}

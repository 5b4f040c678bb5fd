namespace RigControl.Physics.Tests;

/// <summary>What the bench does in a session.</summary>
public class BenchTests
{
    private static readonly BenchParameters Default = new();

    [Fact]
    public void A_new_bench_stands_still_unpowered_closed_and_locked()
    {
        BenchTruth truth = new Bench(Default, 1).Truth;
        Assert.Equal(0, truth.Speed);
        Assert.False(truth.Driven);
        Assert.False(truth.ContactorClosed);
        Assert.True(truth.LidClosed);
        Assert.True(truth.BoltHome);
        Assert.Equal(1, truth.StateOfCharge);
        Assert.Equal(20, truth.WindingTemperature);
        Assert.Equal(12.6, truth.PackVoltage, 9);
    }

    [Fact]
    public void A_drive_that_nobody_set_leaves_it_at_rest_and_locked()
    {
        Session session = new Session(Default).Off(10);
        Assert.Equal(0, session.Truth.Speed);
        Assert.Equal(0, session.Truth.ChargeUsed);
        Assert.True(session.Truth.BoltHome);
    }

    [Fact]
    public void Nothing_turns_without_output_power()
        => Assert.Equal(0, new Session(Default).Drive(new BenchDrive(2000, false, false), 5).Truth.Speed);

    [Fact]
    public void Nothing_turns_before_the_controller_was_armed()
        => Assert.Equal(0, new Session(Default).Pulse(1600, 5).Truth.Speed);

    [Fact]
    public void An_armed_rotor_spins_up_and_settles_a_little_below_the_ideal_speed()
    {
        Session session = new Session(Default).Arm().Pulse(1600, 8);
        double ideal = 0.6 * 12.6 / Default.Motor.TorqueConstant;
        Assert.InRange(session.Truth.Speed, 0.9 * ideal, ideal);
        Near.Absolute(0, session.Truth.Acceleration, 1);
    }

    [Fact]
    public void More_throttle_is_more_speed()
    {
        double last = 0;
        foreach (double pulse in new double[] { 1100, 1200, 1400, 1600, 1800, 2000 })
        {
            double speed = new Session(Default).Arm().Pulse(pulse, 6).Truth.Speed;
            Assert.True(speed > last, $"{pulse} us gives {speed} rad/s, no more than {last}");
            last = speed;
        }
    }

    [Fact]
    public void A_heavier_rotor_takes_longer_to_the_same_speed()
    {
        BenchParameters heavy = Default with { Rotor = Default.Rotor with { Inertia = 2 * Default.Rotor.Inertia } };
        double light = TimeTo(Default, 600), longer = TimeTo(heavy, 600);
        Assert.InRange(longer / light, 1.5, 2.0);
    }

    [Fact]
    public void A_sagging_pack_gives_less_speed_under_load()
    {
        BenchParameters tired = Default with { Pack = Default.Pack with { Resistance = 0.15 } };
        Assert.True(new Session(tired).Arm().Pulse(2000, 0.5).Truth.Speed < new Session(Default).Arm().Pulse(2000, 0.5).Truth.Speed);
    }

    [Fact]
    public void A_half_empty_pack_starts_with_the_voltage_of_its_charge()
    {
        BenchTruth truth = new Bench(Default with { StateOfCharge = 0.5 }, 1).Truth;
        Near.Relative(Default.Pack.OpenCircuitVoltage(0.5), truth.PackVoltage, 1e-12);
        Assert.Equal(0.5, truth.StateOfCharge);
    }

    [Fact]
    public void The_current_limit_is_kept_while_spinning_up()
    {
        double highest = 0;
        new Session(Default).Arm().Drive(new BenchDrive(2000, true, false), 3, truth => highest = Math.Max(highest, truth.MotorCurrent));
        Assert.Equal(Default.Controller.CurrentLimit, highest, 9);
    }

    [Fact]
    public void At_the_stop_pulse_the_rotor_coasts_down_to_rest()
    {
        Session session = new Session(Default).Arm().Pulse(1600, 4);
        double before = session.Truth.Speed;
        session.Pulse(1000, 1);
        Assert.InRange(session.Truth.Speed, 0.8 * before, before);
        Assert.Equal(0, session.Pulse(1000, 40).Truth.Speed);
    }

    [Fact]
    public void A_braking_controller_stops_the_rotor_far_sooner()
    {
        BenchParameters braking = Default with { Controller = Default.Controller with { BrakesAtStop = true } };
        double free = new Session(Default).Arm().Pulse(1600, 4).Pulse(1000, 0.5).Truth.Speed;
        double braked = new Session(braking).Arm().Pulse(1600, 4).Pulse(1000, 0.5).Truth.Speed;
        Assert.True(braked < 0.1 * free, $"{braked} against {free} rad/s");
    }

    [Fact]
    public void Cutting_the_power_lets_the_rotor_coast_even_on_a_braking_controller()
    {
        BenchParameters braking = Default with { Controller = Default.Controller with { BrakesAtStop = true } };
        Session session = new Session(braking).Arm().Pulse(1600, 4);
        double before = session.Truth.Speed;
        Assert.InRange(session.Off(0.5).Truth.Speed, 0.9 * before, before);
    }

    [Fact]
    public void A_two_way_controller_turns_the_rotor_both_ways()
    {
        BenchParameters twoWay = Default with { Controller = Default.Controller with { Mode = ControllerMode.TwoWay, StopPulse = 1500 } };
        Session session = new Session(twoWay).Arm().Pulse(1800, 4);
        double forward = session.Truth.Speed;
        Assert.True(forward > 0);
        Near.Relative(-forward, session.Pulse(1200, 8).Truth.Speed, 0.01);
    }

    [Fact]
    public void A_servo_moves_its_arm_and_turns_no_rotor()
    {
        BenchParameters servo = Default with { Controller = new SpeedController { Mode = ControllerMode.Servo, StopPulse = 1500 } };
        Session session = new Session(servo).Pulse(2000, 2);
        Assert.Equal(1, session.Truth.ServoPosition);
        Assert.Equal(0, session.Truth.Speed);
        Assert.False(session.Truth.Driven);
    }

    [Fact]
    public void A_pack_run_empty_stops_the_motor_by_itself()
    {
        BenchParameters small = Default with { Pack = Default.Pack with { Capacity = 30 } };
        Session session = new Session(small).Arm().Pulse(2000, 120);
        Assert.True(session.Truth.StateOfCharge < 0);
        Assert.False(session.Truth.ControllerArmed);
        Assert.Equal(0, session.Truth.Speed);
    }

    [Fact]
    public void A_supply_too_low_for_the_controller_feeds_nothing_at_all()
    {
        BenchParameters weak = Default with { Controller = Default.Controller with { MinimumSupply = 20 } };
        Session session = new Session(weak).Pulse(1000, 2);
        Assert.True(session.Truth.ContactorClosed);
        Assert.False(session.Truth.ControllerArmed);
        Assert.Equal(0, session.Truth.PackCurrent);
    }

    [Fact]
    public void Peaks_between_two_steps_are_kept()
    {
        var coarse = new Session(Default, dt: 0.05).Arm();
        coarse.Bench.Step(0.05, new BenchDrive(2000, true, false));
        coarse.Bench.Step(0.5, new BenchDrive(2000, true, false));
        coarse.Bench.Step(0.9, new BenchDrive(2000, true, false));
        Assert.True(coarse.Truth.HighestPackCurrent > coarse.Truth.PackCurrent);
        Assert.True(coarse.Truth.LowestPackVoltage < coarse.Truth.PackVoltage);
    }

    [Fact]
    public void The_tachometer_reads_the_speed()
    {
        Session session = new Session(Default).Arm().Pulse(1600, 6);
        Near.Relative(session.Truth.Speed, session.Bench.Tachometer.Speed(Default.Tachometer), 2e-3);
    }

    [Fact]
    public void Stored_energy_and_tip_speed_belong_to_the_speed()
    {
        BenchTruth truth = new Session(Default).Arm().Pulse(2000, 5).Truth;
        Near.Relative(0.5 * Default.Rotor.Inertia * truth.Speed * truth.Speed, truth.StoredEnergy, 1e-12);
        Near.Relative(0.045 * truth.Speed, truth.TipSpeed, 1e-12);
    }

    [Fact]
    public void The_default_bench_is_the_disc_its_description_promises()
    {
        BenchTruth truth = new Session(Default).Arm().Pulse(2000, 5).Truth;
        Near.Relative(12_400, truth.Speed * 30 / Math.PI, 0.01);
        Near.Relative(160, truth.StoredEnergy, 0.02);
    }

    [Fact]
    public void The_same_seed_gives_the_same_bits()
    {
        Assert.Equal(Trace(7), Trace(7));
        Assert.NotEqual(Trace(7), Trace(8));
    }

    [Fact]
    public void A_step_allocates_nothing()
    {
        var bench = new Bench(Default, 1);
        bench.Step(0.005, new BenchDrive(1000, true, false));
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 10_000; i++)
            bench.Step(0.005, new BenchDrive(i < 500 ? 1000 : 1500, true, false));
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.005)]
    [InlineData(1.5)]
    [InlineData(double.NaN)]
    public void A_step_outside_its_range_is_refused_with_the_range(double dt)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => new Bench(Default, 1).Step(dt, default));
        Assert.Contains("more than 0 s and at most 1 s", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_pulse_that_is_no_number_is_refused()
        => Assert.Throws<ArgumentOutOfRangeException>(() => new Bench(Default, 1).Step(0.005, new BenchDrive(double.NaN, true, false)));

    private static double TimeTo(BenchParameters parameters, double speed)
    {
        Session session = new Session(parameters).Arm();
        double start = session.Truth.Time;
        while (session.Truth.Speed < speed)
            session.Pulse(2000, 0.005);
        return session.Truth.Time - start;
    }

    private static List<(double, double, double)> Trace(ulong seed)
    {
        List<(double, double, double)> trace = [];
        var session = new Session(Default, seed);
        session.Arm();
        for (int i = 0; i < 400; i++)
        {
            session.Pulse(1700, 0.005);
            trace.Add((session.Truth.Speed, session.Bench.Tachometer.Period, session.Truth.WindingTemperature));
        }

        return trace;
    }
}

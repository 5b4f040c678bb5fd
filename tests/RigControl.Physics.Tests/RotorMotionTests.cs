using System.Text.Json.Nodes;

namespace RigControl.Physics.Tests;

public class RotorMotionTests
{
    private static readonly JsonNode Data = Reference.Json("motor/motor_examples.json");

    /// <summary>Source: standard integral (Gradshteyn and Ryzhik 2.172; from memory), derived twice; motor/motor_examples.json.</summary>
    [Theory]
    [InlineData(0.01, 1e-4)]
    [InlineData(0.1, 1e-3)]
    public void A_coast_down_takes_the_time_of_the_closed_form(double dt, double share)
    {
        JsonNode example = Data["coastdown_exact"]!;
        Near.Relative(example.Value("t_stop_analytic"), CoastDown(example["inputs"]!, 1, dt), share);
    }

    [Fact]
    public void Twice_the_inertia_coasts_twice_as_long()
    {
        JsonNode inputs = Data["coastdown_exact"]!["inputs"]!;
        Near.Relative(2 * CoastDown(inputs, 1, 0.01), CoastDown(inputs, 2, 0.02), 1e-9);
    }

    /// <summary>Source: first-order response, derived; J 1e-4, R 0.1, Kt 0.01: time constant 0.1 s, 90 % after 0.23026 s.</summary>
    [Fact]
    public void A_spin_up_without_drag_is_the_first_order_response()
    {
        JsonNode example = Data["spinup_first_order"]!;
        double reached = SpinUp(example.Value("t90"), 230);
        Near.Relative(0.9, reached, 1e-4);
        Near.Relative(1 - Math.Exp(-1), SpinUp(example.Value("tau"), 100), 1e-4);
    }

    [Fact]
    public void Halving_the_step_quarters_the_error()
    {
        double exact = 1 - Math.Exp(-2);
        double coarse = Math.Abs(SpinUp(0.2, 10) - exact);
        double fine = Math.Abs(SpinUp(0.2, 20) - exact);
        double finer = Math.Abs(SpinUp(0.2, 40) - exact);
        Assert.InRange(coarse / fine, 3.7, 4.3);
        Assert.InRange(fine / finer, 3.7, 4.3);
    }

    /// <summary>Source: retardation test, P = J w dw/dt; J 75 kg.m2, 1000 rpm falling 60 rpm in 15 s; derived.</summary>
    [Fact]
    public void Drag_power_seen_in_the_slowing_agrees_with_the_retardation_test()
    {
        JsonNode example = Data["retardation_formula"]!["example"]!;
        double speed = example.Value("N") * Math.PI / 30;
        double torque = example.Value("P") / speed;
        var motion = Free(example.Value("J"), new Drag(torque, 0, 0, 0));
        double slower = motion.Advance(speed, 0, 0, 0, example.Value("dt"));
        Near.Relative(example.Value("dN"), (speed - slower) * 30 / Math.PI, 1e-9);
    }

    [Fact]
    public void A_light_rotor_settles_even_under_a_step_of_fifty_time_constants()
    {
        double speed = 0;
        var motion = Free(1e-7, default);
        for (int i = 0; i < 2000; i++)
            speed = motion.Advance(speed, 0.01 * (10 - 0.01 * speed) / 0.1, -0.001, 0, 0.005);
        Near.Relative(1000, speed, 1e-9);
    }

    [Fact]
    public void A_torque_below_breakaway_turns_nothing()
    {
        var motion = Free(1e-4, new Drag(0.01, 0, 0, 0.02));
        Assert.Equal(0, motion.Advance(0, 0.019, 0, 0, 0.01));
        Assert.True(motion.Advance(0, 0.021, 0, 0, 0.01) > 0);
        Assert.True(motion.Advance(0, -0.021, 0, 0, 0.01) < 0);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void Friction_stops_the_rotor_and_never_turns_it_round(int direction)
    {
        var motion = Free(1e-4, new Drag(0.01, 0, 0, 0.02));
        double speed = direction * 3.0;
        for (int i = 0; i < 100; i++)
        {
            speed = motion.Advance(speed, 0, 0, 0.5, 0.01);
            Assert.True(speed * direction >= 0);
        }

        Assert.Equal(0, speed);
    }

    [Fact]
    public void Both_directions_behave_alike()
    {
        var motion = Free(1e-4, new Drag(0.01, 1e-5, 1e-8, 0.02));
        Assert.Equal(motion.Advance(300, 0.05, -1e-4, 0, 0.002), -motion.Advance(-300, -0.05, -1e-4, 0, 0.002));
    }

    private static double CoastDown(JsonNode inputs, double inertias, double dt)
    {
        var drag = new Drag(inputs.Value("a"), inputs.Value("b"), inputs.Value("c"), 0);
        var motion = Free(inertias * inputs.Value("J"), drag);
        double speed = inputs.Value("w0");
        double time = 0;
        while (true)
        {
            double next = motion.Advance(speed, 0, 0, 0, dt);
            if (next == 0)
                return time + speed * inertias * inputs.Value("J") / drag.Torque(speed / 2);
            speed = next;
            time += dt;
        }
    }

    /// <summary>Share of the final speed reached after a time, in so many steps.</summary>
    private static double SpinUp(double time, int steps)
    {
        const double constant = 0.01, resistance = 0.1, volts = 10;
        var motion = Free(1e-4, default);
        double speed = 0;
        for (int i = 0; i < steps; i++)
        {
            double torque = constant * (volts - constant * speed) / resistance;
            speed = motion.Advance(speed, torque, -constant * constant / resistance, 0, time / steps);
        }

        return speed / (volts / constant);
    }

    private static RotorMotion Free(double inertia, Drag drag)
        => new(inertia, new DragCurve(drag, Air.AtTwentyDegrees, 0, 0, 2000));
}

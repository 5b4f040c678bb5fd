using System.Text.Json.Nodes;

namespace RigControl.Physics.Tests;

/// <summary>The whole bench, made ideal, against closed forms. Sources: derived; motor/motor_examples.json, motor/charge_energy.json.</summary>
public class BenchClosedFormTests
{
    /// <summary>First-order response: 90 % of the final speed after 2.3026 time constants J R / Kt² of 0.1 s.</summary>
    [Fact]
    public void Spin_up_takes_the_time_of_the_first_order_response()
    {
        JsonNode expected = Reference.Json("motor/motor_examples.json")["spinup_first_order"]!;
        double final = 12.6 / 0.01;
        Near.Relative(expected.Value("t90"), TimeOf(Session.Ideal(), 0.9 * final), 0.005);
        Near.Relative(expected.Value("tau"), TimeOf(Session.Ideal(), (1 - Math.Exp(-1)) * final), 0.01);
    }

    /// <summary>Linear drag c1 adds to Kt²/R: final speed and time constant both shrink by the same share.</summary>
    [Fact]
    public void Linear_drag_lowers_final_speed_and_time_constant_alike()
    {
        const double c1 = 2.5e-4;
        double share = 1e-3 / (1e-3 + c1);
        BenchParameters data = Session.Ideal(new Drag(0, c1, 0, 0));
        double final = share * 12.6 / 0.01;
        Near.Relative(final, new Session(data).Arm().Pulse(2000, 3).Truth.Speed, 1e-6);
        Near.Relative(share * 0.1, TimeOf(data, (1 - Math.Exp(-1)) * final), 0.01);
    }

    /// <summary>Coast-down under a + b w + c w² from 838 rad/s takes 116.83 s.</summary>
    [Fact]
    public void Coast_down_takes_the_time_of_the_closed_form()
    {
        JsonNode example = Reference.Json("motor/motor_examples.json")["coastdown_exact"]!;
        JsonNode inputs = example["inputs"]!;
        var drag = new Drag(inputs.Value("a"), inputs.Value("b"), inputs.Value("c"), 0);
        BenchParameters data = Session.Ideal() with { Rotor = new Rotor(inputs.Value("J"), 0.02, drag, 0) };
        Session session = new Session(data, dt: 0.001).Arm();
        while (session.Truth.Speed < inputs.Value("w0"))
            session.Pulse(2000, 0.001);
        double surplus = (session.Truth.Speed - inputs.Value("w0")) * inputs.Value("J") / drag.Torque(inputs.Value("w0"));
        double start = session.Truth.Time;
        while (session.Truth.Speed > 0)
            session.Pulse(1000, 0.001);
        Near.Relative(example.Value("t_stop_analytic"), session.Truth.Time - start - surplus, 1e-4);
        Near.Relative(inputs.Value("w0"), Math.Sqrt(2 * example.Value("energy") / inputs.Value("J")), 1e-12);
    }

    /// <summary>Shorted windings: exponential slowing with J R / Kt².</summary>
    [Fact]
    public void Braking_slows_by_the_exponential_law()
    {
        BenchParameters data = Session.Ideal() with { Controller = Session.Ideal().Controller with { BrakesAtStop = true } };
        Session session = new Session(data, dt: 0.001).Arm().Pulse(2000, 2);
        double before = session.Truth.Speed;
        Near.Relative(before * Math.Exp(-2), session.Pulse(1000, 0.2).Truth.Speed, 1e-3);
    }

    /// <summary>A held rotor at the current limit draws a constant winding current; charge and heat follow at once.</summary>
    [Fact]
    public void A_held_rotor_draws_and_heats_as_current_and_resistance_say()
    {
        BenchParameters data = Session.Ideal() with
        {
            Controller = Session.Ideal().Controller with { CurrentLimit = 20 },
            MotorHeat = new Heat(1e6, 1e9, 1e-9, 1e-9),
        };
        Session session = new Session(data).Arm();
        session.Bench.Faults.RotorJammed = true;
        session.Pulse(2000, 90);
        double packCurrent = 20 * 20 * 0.1 / 12.6;
        Assert.Equal(0, session.Truth.Speed);
        Near.Relative(packCurrent, session.Truth.PackCurrent, 1e-4);
        Near.Relative(packCurrent * 90, session.Truth.ChargeUsed, 1e-4);
        Near.Relative(40 * 90 / 1e6, session.Truth.WindingTemperature - 20, 1e-3);
    }

    /// <summary>Parts that lose no heat warm by their losses over their capacity.</summary>
    [Fact]
    public void Winding_controller_and_pack_each_keep_the_heat_of_their_own_losses()
    {
        var sealedOff = new Heat(500, 1, 0, 0);
        var data = new BenchParameters { MotorHeat = sealedOff, ControllerHeat = sealedOff, PackHeat = sealedOff };
        BenchTruth truth = new Session(data).Arm().Pulse(1700, 20).Truth;
        Near.Relative(truth.Energy.WindingHeat / 500, truth.WindingTemperature - 20, 1e-6);
        Near.Relative(truth.Energy.ControllerHeat / 500, truth.ControllerTemperature - 20, 1e-6);
        Near.Relative(truth.Energy.PackHeat / 500, truth.PackTemperature - 20, 1e-6);
        Near.Relative(truth.Energy.IronHeat / 1, truth.CaseTemperature - 20, 1e-6);
    }

    /// <summary>Source: closed form, 20 A for 90 s is 0.5 Ah; motor/charge_energy.json. Here 20 A at full duty into a held rotor.</summary>
    [Fact]
    public void Twenty_amperes_for_ninety_seconds_use_half_an_ampere_hour()
    {
        JsonNode expected = Reference.Json("motor/charge_energy.json");
        BenchParameters data = Session.Ideal() with { Motor = Session.Ideal().Motor with { Resistance = 12.6 / 20 } };
        Session session = new Session(data).Arm();
        session.Bench.Faults.RotorJammed = true;
        session.Pulse(2000, 90);
        Near.Relative(expected.Value("Ah"), session.Truth.ChargeUsed / 3600, 1e-6);
        Near.Relative(expected.Value("Ah") * 12.6, session.Truth.Energy.FromPack / 3600, 1e-6);
    }

    /// <summary>In ideal spin-up to the final speed the winding turns as much energy to heat as the rotor stores, whatever the resistance.</summary>
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.1)]
    [InlineData(0.4)]
    public void A_full_spin_up_heats_the_winding_by_the_energy_it_stores(double resistance)
    {
        BenchParameters data = Session.Ideal() with { Motor = Session.Ideal().Motor with { Resistance = resistance } };
        BenchTruth truth = new Session(data).Arm().Pulse(2000, 10).Truth;
        Near.Relative(truth.StoredEnergy, truth.Energy.WindingHeat, 2e-3);
        Near.Relative(2 * truth.StoredEnergy, truth.Energy.FromPack, 2e-3);
    }

    [Fact]
    public void Shorter_steps_converge_on_one_answer_and_quickly()
    {
        double coarse = SpeedWith(0.001), fine = SpeedWith(0.0005), finer = SpeedWith(0.00025);
        Near.Relative(finer, coarse, 2e-3);
        Assert.True(Math.Abs(fine - finer) < 0.6 * Math.Abs(coarse - fine), $"{coarse:R} {fine:R} {finer:R}");
    }

    [Fact]
    public void One_long_step_is_as_good_as_many_short_ones()
        => Near.Relative(SpeedWith(0.001), SpeedWith(0.01), 1e-3);

    private static double SpeedWith(double dt)
        => new Session(new BenchParameters(), dt: dt).Arm().Pulse(1800, 0.6).Truth.Speed;

    /// <summary>Time from the first full pulse to a speed, with the last step cut to fit.</summary>
    private static double TimeOf(BenchParameters data, double speed)
    {
        Session session = new Session(data, dt: 0.001).Arm();
        double start = session.Truth.Time;
        double before = 0;
        while (session.Truth.Speed < speed)
        {
            before = session.Truth.Speed;
            session.Pulse(2000, 0.001);
        }

        return session.Truth.Time - start - 0.001 * (session.Truth.Speed - speed) / (session.Truth.Speed - before);
    }
}

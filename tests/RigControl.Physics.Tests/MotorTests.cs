using System.Text.Json.Nodes;

namespace RigControl.Physics.Tests;

public class MotorTests
{
    private static readonly JsonNode Data = Reference.Json("motor/motor_examples.json");
    private static readonly Motor Identities = new(1000, 0.1, 1.2);

    /// <summary>Source: Kt = 60 / (2 π Kv), derived; motor/motor_examples.json.</summary>
    [Fact]
    public void The_torque_constant_follows_from_the_speed_constant()
    {
        foreach (JsonNode? row in Data["Kt_from_Kv"]!.AsArray())
        {
            var motor = new Motor(row!.Value("Kv_rpm_per_V"), 0.1, 1);
            Near.Relative(row!.Value("Kt_Nm_per_A"), motor.TorqueConstant, 1e-12);
            Near.Relative(row!.Value("Ke_V_per_rad_s"), motor.BackEmf(1), 1e-12);
        }
    }

    /// <summary>Source: M. Drela, First-Order DC Electric Motor Model, MIT 2007 (from memory), arithmetic derived.</summary>
    [Fact]
    public void Stall_no_load_and_best_points_agree_with_the_first_order_motor()
    {
        JsonNode expected = Data["dc_identities"]!;
        Near.Relative(expected.Value("no_load_rad_s"), Identities.NoLoadSpeed(12), 1e-12);
        Near.Relative(expected.Value("stall_current"), Identities.StallCurrent(12), 1e-12);
        Near.Relative(expected.Value("stall_torque"), Identities.StallTorque(12), 1e-12);
        Near.Relative(expected.Value("P_max"), Identities.PeakPower(12), 1e-12);
        Near.Relative(expected.Value("I_at_eta_max"), Identities.CurrentAtBestEfficiency(12), 1e-12);
        Near.Relative(expected.Value("eta_max"), Identities.BestEfficiency(12), 1e-12);
    }

    [Fact]
    public void The_stated_best_efficiency_is_the_highest_of_all_currents()
    {
        double best = 0;
        for (double current = 2; current < 120; current += 0.01)
            best = Math.Max(best, Identities.Efficiency(12, current));
        Near.Absolute(Identities.BestEfficiency(12), best, 1e-6);
    }

    [Fact]
    public void The_stated_peak_power_is_the_highest_of_all_speeds_and_lies_at_half_no_load()
    {
        double Power(double speed) => Identities.Torque(Identities.Current(12, speed)) * speed;
        double half = Identities.NoLoadSpeed(12) / 2;
        Near.Relative(Identities.PeakPower(12), Power(half), 1e-12);
        Assert.True(Power(half) > Power(half * 1.01));
        Assert.True(Power(half) > Power(half * 0.99));
    }

    /// <summary>Source: a textbook's worked example (read); its back-EMF is 110 V at 125 V, 60 A and 0.25 ohm.</summary>
    [Fact]
    public void The_back_emf_of_a_worked_example_leaves_its_current()
    {
        JsonNode example = Data["examples"]!.Entry("Kosow-1.13");
        JsonNode given = example["given"]!;
        var motor = new Motor(60 / (2 * Math.PI), given.Value("Ra"), 0);
        Near.Relative(given.Value("Ia"), motor.Current(given.Value("Va"), example.Value("Ec")), 1e-12);
    }

    /// <summary>Source: a textbook's worked example (read, recomputed): 120 V at 6000 rpm, then 60 V, 2.5 ohm, 0.5 N.m.</summary>
    [Fact]
    public void Current_and_speed_under_load_agree_with_a_worked_example()
    {
        JsonNode example = Data["examples"]!.Entry("TBC1892-4.5");
        var motor = new Motor(6000.0 / 120, 2.5, 0);
        double current = 0.5 / motor.TorqueConstant;
        double speed = (60 - current * 2.5) / motor.TorqueConstant;
        Near.Relative(example.Value("Ke"), motor.TorqueConstant, 1e-12);
        Near.Relative(example.Value("I"), current, 1e-12);
        Near.Relative(example.Value("speed_rpm"), speed * 30 / Math.PI, 1e-12);
        Near.Relative(current, motor.Current(60, speed), 1e-12);
    }

    /// <summary>Source: winding temperature by resistance, IEC 60034-1 clause 8.6.2, k = 234.5 for copper (from memory), numbers read.</summary>
    [Theory]
    [InlineData("winding-rise-1")]
    [InlineData("winding-rise-2")]
    public void Hot_copper_resists_as_the_rise_by_resistance_method_says(string id)
    {
        JsonNode example = Data["examples"]!.Entry(id);
        JsonNode given = example["given"]!;
        var winding = new Motor(1000, 1, 0);
        double hot = given.Value("t2") + example.Value("rise");
        double ratio = winding.ResistanceAt(hot) / winding.ResistanceAt(given.Value("t1"));
        Near.Relative(given.Value("R2") / given.Value("R1"), ratio, 5e-4);
    }

    [Fact]
    public void At_twenty_degrees_the_resistance_is_the_declared_one() => Assert.Equal(0.1, Identities.ResistanceAt(20));

    [Fact]
    public void Power_in_is_power_out_plus_copper_plus_iron()
    {
        const double speed = 600;
        double current = Identities.Current(12, speed);
        double losses = current * current * Identities.Resistance + Identities.NoLoadCurrent * Identities.BackEmf(speed);
        Near.Relative(12 * current, Identities.Torque(current) * speed + losses, 1e-12);
    }
}

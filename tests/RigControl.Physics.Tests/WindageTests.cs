using System.Text.Json.Nodes;

namespace RigControl.Physics.Tests;

public class WindageTests
{
    private static readonly Air Air = Air.AtTwentyDegrees;

    public static TheoryData<int> Discs => [0, 1, 2];

    /// <summary>
    /// Source: von Karman's disc, boundary-value problem solved again; Rogers and Lance 1960; Schlichting ch. 5 (from memory);
    /// mech/rotating_disc.json. The solved coefficient is 0.012 % below the rounded 3.87.
    /// </summary>
    [Theory, MemberData(nameof(Discs))]
    public void The_laminar_law_agrees_with_the_solved_flow_over_a_disc(int disc)
    {
        Example example = Load(disc);
        double torque = Torque(Windage.LaminarCoefficient(example.Reynolds), example);
        Near.Relative(example.Laminar, torque, 2e-4);
        Near.Relative(example.Laminar * example.Speed, torque * example.Speed, 2e-4);
    }

    [Theory, MemberData(nameof(Discs))]
    public void The_turbulent_law_agrees_with_the_published_disc(int disc)
    {
        Example example = Load(disc);
        Near.Relative(example.Turbulent, Torque(Windage.TurbulentCoefficient(example.Reynolds), example), 1e-12);
    }

    [Fact]
    public void A_small_disc_is_laminar_and_a_large_one_turbulent()
    {
        Near.Relative(Load(0).Laminar, Windage.Torque(Air, Load(0).Radius, Load(0).Speed), 2e-4);
        Near.Relative(Load(1).Turbulent, Windage.Torque(Air, Load(1).Radius, Load(1).Speed), 1e-12);
        Near.Relative(Load(2).Turbulent, Windage.Torque(Air, Load(2).Radius, Load(2).Speed), 1e-12);
    }

    [Theory, MemberData(nameof(Discs))]
    public void The_Reynolds_number_agrees_with_the_published_disc(int disc)
    {
        Example example = Load(disc);
        Near.Relative(example.Reynolds, Windage.Reynolds(Air, example.Radius, example.Speed), 1e-12);
    }

    [Fact]
    public void A_disc_at_rest_has_no_windage() => Assert.Equal(0, Windage.Torque(Air, 0.1, 0));

    [Fact]
    public void A_rotor_without_radius_has_no_windage() => Assert.Equal(0, Windage.Torque(Air, 0, 1000));

    [Fact]
    public void Windage_is_the_same_both_ways_round()
        => Assert.Equal(Windage.Torque(Air, 0.1, 500), Windage.Torque(Air, 0.1, -500));

    [Fact]
    public void Windage_never_falls_with_speed_not_even_through_the_transition()
    {
        double last = 0;
        for (double speed = 1; speed < 3000; speed += 1)
        {
            double torque = Windage.Torque(Air, 0.06, speed);
            Assert.True(torque > last, $"falls at {speed} rad/s");
            last = torque;
        }
    }

    [Theory]
    [InlineData(Windage.LaminarBelow)]
    [InlineData(Windage.TurbulentAbove)]
    public void The_laws_join_without_a_jump(double reynolds)
        => Near.Relative(Windage.MomentCoefficient(reynolds * (1 - 1e-9)), Windage.MomentCoefficient(reynolds * (1 + 1e-9)), 1e-6);

    [Fact]
    public void Laminar_windage_goes_with_the_fourth_power_of_the_radius_and_the_speed_to_one_and_a_half()
    {
        double one = Windage.Torque(Air, 0.02, 100);
        Near.Relative(16 * one, Windage.Torque(Air, 0.04, 100), 1e-12);
        Near.Relative(8 * one, Windage.Torque(Air, 0.02, 400), 1e-12);
    }

    [Fact]
    public void Turbulent_windage_goes_with_the_speed_to_one_point_eight()
    {
        double one = Windage.Torque(Air, 0.15, 400);
        Near.Relative(Math.Pow(2, 1.8) * one, Windage.Torque(Air, 0.15, 800), 1e-12);
    }

    /// <summary>The edge of what people run; the air counts as not squeezed below three tenths of the speed of sound (both common practice, no source).</summary>
    [Theory]
    [InlineData(5_000)]
    [InlineData(14_000)]
    public void Wheels_and_insect_class_weapons_at_the_edge_turn_where_the_laminar_law_holds(double rpm)
    {
        const double Radius = 0.04, Sound = 343;
        double speed = rpm * Math.PI / 30;
        Assert.InRange(Windage.Reynolds(Air, Radius, speed), 1e4, Windage.LaminarBelow);
        Assert.InRange(speed * Radius, 0, 0.3 * Sound);
        Near.Relative(Math.Pow(2, 1.5) * Windage.Torque(Air, Radius, speed / 2), Windage.Torque(Air, Radius, speed), 1e-12);
    }

    [Fact]
    public void Denser_air_resists_in_proportion()
        => Near.Relative(2 * Windage.Torque(Air, 0.05, 900), Windage.Torque(Air with { Density = 2 * Air.Density }, 0.05, 900), 1e-12);

    private static double Torque(double coefficient, Example example)
        => 0.5 * coefficient * Air.Density * example.Speed * example.Speed * Math.Pow(example.Radius, 5);

    private static Example Load(int index)
    {
        JsonNode row = Reference.Json("mech/rotating_disc.json")["examples"]![index]!;
        double speed = row.Value("rpm") * Math.PI / 30;
        return new Example(row.Value("R"), speed, row.Value("Re"), row.Value("M_laminar"), row.Value("M_turb"));
    }

    private sealed record Example(double Radius, double Speed, double Reynolds, double Laminar, double Turbulent);
}

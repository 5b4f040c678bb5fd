using System.Text.Json.Nodes;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Inertias;

/// <summary>Source: handbook formulas (from memory), values derived; mech/rotor_pendulum_thread.json.</summary>
public class PendulumInertiaTests
{
    private static readonly JsonNode Data = Reference.Json("mech/rotor_pendulum_thread.json");

    [Fact]
    public void A_bar_on_two_threads_has_the_inertia_of_the_formula() =>
        Near.Relative(Reference.Number(Data["bifilar"]!, "I_direct"), Bar(Reference.Number(Data["bifilar"]!, "T"), 0).Value, 1e-9);

    [Fact]
    public void A_disc_on_three_threads_has_the_inertia_of_the_formula() =>
        Near.Relative(Reference.Number(Data["trifilar"]!, "I_direct"), PendulumInertia.Trifilar(Exact(0.5), Exact(0.08), Exact(0.6), Exact(Reference.Number(Data["trifilar"]!, "T"))).Value, 1e-9);

    [Theory]
    [InlineData(2)]
    [InlineData(10)]
    [InlineData(20)]
    [InlineData(30)]
    public void Wider_swings_are_slower_and_are_corrected_for(double degrees)
    {
        double period = Reference.Number(Data["bifilar"]!, $"exact_T_amp_{degrees}deg");
        double truth = Reference.Number(Data["bifilar"]!, "I_direct");
        double corrected = Bar(period, degrees * Math.PI / 180).Value;
        Assert.True(Math.Abs(corrected - truth) < 0.3 * Math.Abs(Bar(period, 0).Value - truth), $"{degrees} degrees: {corrected} for {truth}");
    }

    /// <summary>Source: derived; 2 % of a squared length counts twice, of the period twice, of mass and thread once.</summary>
    [Fact]
    public void The_budget_names_what_to_measure_better()
    {
        Measured inertia = PendulumInertia.Bifilar(new("mass", 0.4, 0.0005), new("distance", 0.2, 0.001), new("length", 0.5, 0.001), new("period", 0.828, 0.001));
        Assert.Equal("distance", inertia.Budget[0].Name);
        double relative = Math.Sqrt(Math.Pow(0.0005 / 0.4, 2) + Math.Pow(2 * 0.001 / 0.2, 2) + Math.Pow(0.001 / 0.5, 2) + Math.Pow(2 * 0.001 / 0.828, 2));
        Near.Relative(relative, inertia.Uncertainty / inertia.Value, 1e-3);
    }

    [Fact]
    public void Many_swings_timed_by_hand_give_a_period_better_than_the_hand()
    {
        Input period = PendulumInertia.Period([16.5, 16.62, 16.58], swings: 20, resolution: 0.2);
        Near.Relative(16.5667 / 20, period.Value, 1e-5);
        Assert.InRange(period.Uncertainty, 0.2 / Math.Sqrt(12) / 20, 0.01);
        Assert.True(PendulumInertia.Period([16.5], 20, 0.2).Uncertainty > 0, "one timing is known to the hand");
    }

    [Fact]
    public void The_platform_is_taken_off() =>
        Assert.Equal((3, 0.5), (PendulumInertia.Less(new Measured(5, 0.3), new Measured(2, 0.4)) is var m ? (Math.Round(m.Value, 9), Math.Round(m.Uncertainty, 9)) : default));

    private static Measured Bar(double period, double amplitude) => PendulumInertia.Bifilar(Exact(0.4), Exact(0.2), Exact(0.5), Exact(period), amplitude);

    private static Input Exact(double value) => new("", value, 0);
}

using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>What the builder says about how well the article's data are known is part of every figure that needs them.</summary>
public class DeclaredUncertaintyTests
{
    private const double Share = 0.04;
    private static readonly Article Known = Articles.Disc with { Uncertainty = new Dictionary<string, double> { ["inertia"] = Share, ["capacity"] = Share } };

    [Theory]
    [InlineData("stored-energy", "inertia")]
    [InlineData("drag-constant", "inertia")]
    [InlineData("peak-torque", "inertia")]
    [InlineData("peak-mechanical-power", "inertia")]
    [InlineData("battery-share", "capacity")]
    public void A_declared_uncertainty_adds_to_what_the_readings_leave(string name, string part)
    {
        Figure exact = Run().Figure(name), figure = Run().Figure(name, Known);
        Assert.Equal(exact.Value!.Value, figure.Value!.Value, 1e-12 * exact.Value.Value);
        double own = Share * figure.Value.Value;
        Near.Relative(Math.Sqrt(exact.StandardUncertainty!.Value * exact.StandardUncertainty.Value + own * own), figure.StandardUncertainty!.Value, 1e-6);
        Near.Relative(own, figure.Budget.Single(b => b.Name == part).Uncertainty, 1e-6);
        Assert.Equal(1, figure.Budget.Sum(b => b.Share), 9);
    }

    [Theory]
    [InlineData("stored-energy")]
    [InlineData("battery-share")]
    public void What_is_declared_without_an_uncertainty_counts_as_exact(string name) =>
        Assert.DoesNotContain(Run().Figure(name).Budget, b => b.Name is "inertia" or "capacity");

    [Theory]
    [InlineData("steady-speed")]
    [InlineData("tip-speed")]
    [InlineData("charge-used")]
    public void A_figure_that_needs_neither_is_known_as_well_as_before(string name) =>
        Assert.Equal(Run().Figure(name).StandardUncertainty, Run().Figure(name, Known).StandardUncertainty);

    [Fact]
    public void A_lopsided_interval_widens_to_both_sides_and_stays_lopsided()
    {
        Measured lopsided = new(10, 1) { Asymmetric = (9, 14) };
        (double low, double high) = lopsided.Times(new Input("inertia", 2, 0.1)).Interval95;
        // The factor alone: 1.96 of 0.1 times 10.
        Assert.Equal(20 - Measured.Combine(2, 1.96), low, 3);
        Assert.Equal(20 + Measured.Combine(8, 1.96), high, 3);
    }

    [Fact]
    public void A_factor_estimated_from_few_leaves_few_degrees_of_freedom()
    {
        Measured product = new Measured(10, 0.1).Times(new Input("inertia", 1, 0.1, Freedom: 4));
        Assert.InRange(product.Freedom, 4, 4.1);
        Assert.Equal(["inertia", "readings"], product.Budget.Select(b => b.Name));
    }

    // A rise with a limit, a hold and a coast-down, with a little scatter, so that every figure has an uncertainty of its own.
    private static MadeTrace Run()
    {
        Random chance = new(5);
        double Scattered(double value) => value + 3 * (chance.NextDouble() - 0.5);
        return new MadeTrace()
            .Channel("rotor.speed", "rpm", t => Scattered(t < 1 ? 0 : t < 10 ? 9000 * (1 - Math.Exp(-(t - 1) / 0.5)) : Math.Max(0, 9000 - 800 * (t - 10))), to: 25)
            .Channel("battery.current", "A", t => t is > 1 and < 10 ? Scattered(20) : 0, to: 25)
            .Repeat(1, 5, 10, 22);
    }
}

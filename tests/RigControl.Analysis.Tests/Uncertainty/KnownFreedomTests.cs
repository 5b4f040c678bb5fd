using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Uncertainty;

/// <summary>What a kept figure still tells of its uncertainty, and which parts of it repeats share.</summary>
public class KnownFreedomTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2.5)]
    [InlineData(4)]
    [InlineData(30)]
    public void Degrees_of_freedom_are_found_again_from_their_factor(double freedom) =>
        Near.Relative(freedom, Coverage.Freedom95(Coverage.Factor95(freedom)), 1e-6);

    [Theory]
    [InlineData(1.96)]
    [InlineData(1.65)]
    [InlineData(double.NaN)]
    public void The_normal_factor_and_a_shorter_one_are_of_unlimited_freedom(double factor) => Assert.Equal(double.PositiveInfinity, Coverage.Freedom95(factor));

    [Fact]
    public void A_factor_beyond_all_is_of_one_degree() => Assert.Equal(1, Coverage.Freedom95(40));

    [Fact]
    public void A_kept_figure_has_its_value_budget_and_freedom_again()
    {
        Measured made = Measured.Of(5, new Input("scatter of the samples", 0, 0.3, 4), new Input("inertia", 0, 0.1));
        Figure figure = new("stored-energy", made.Value, "J", made.Uncertainty, made.Interval95, 1, "m", null) { Budget = made.Budget };
        Measured kept = Measured.Kept(figure);
        Assert.Equal((made.Value, made.Uncertainty), (kept.Value, kept.Uncertainty));
        Near.Relative(made.Freedom, kept.Freedom, 1e-6);
        Assert.Equal(made.Budget, kept.Budget);
    }

    [Fact]
    public void A_figure_without_an_uncertainty_counts_as_exact_and_one_without_a_value_is_none()
    {
        Assert.Equal((5, 0), (Measured.Kept(new("mass", 5, "g", null, null, 1, "m", null)).Value, Measured.Kept(new("mass", 5, "g", null, null, 1, "m", null)).Uncertainty));
        Assert.Throws<ArgumentException>(() => Measured.Kept(new("mass", null, "g", null, null, 1, "m", "why")));
    }

    [Fact]
    public void Whatever_an_article_may_state_is_shared_by_repeats_and_nothing_else_can_be_declared()
    {
        Assert.All(UncertaintyKeys.All.Keys, key => Assert.True(SharedPart.Is(SharedPart.Declared(key))));
        Assert.Throws<ArgumentException>(() => SharedPart.Declared("tip-radius"));
        Assert.True(SharedPart.Is(SharedPart.Calibration("force")));
    }
}

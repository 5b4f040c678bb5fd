using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Uncertainty;

public class PropagationTests
{
    [Fact]
    public void A_formula_that_hardly_bends_takes_the_law()
    {
        Measured product = Propagation.Of(x => x[0] * x[1], [new("a", 10, 0.1), new("b", 20, 0.1)]);
        Near.Relative(Math.Sqrt(2 * 2 + 1), product.Uncertainty, 1e-6);
        Assert.Null(product.Asymmetric);
        Assert.Equal("a", product.Budget[0].Name);
        Near.Relative(0.8, product.Budget[0].Share, 1e-6);
    }

    /// <summary>Source: closed form, derived; the 95 % interval of e to a normal exponent ends at e to its ends.</summary>
    [Fact]
    public void A_formula_that_bends_has_an_interval_that_is_not_symmetric()
    {
        Measured power = Propagation.Of(x => Math.Exp(x[0]), [new("exponent", 1, 0.5)]);
        Near.Relative(Math.Exp(1 + 0.98), power.Interval95.High, 0.03);
        Near.Relative(Math.Exp(1 - 0.98), power.Interval95.Low, 0.03);
        Assert.True(power.Interval95.High - power.Value > 2 * (power.Value - power.Interval95.Low));
    }

    /// <summary>Source: the quantiles of Student's distribution of a general-purpose library.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2.5)]
    [InlineData(6)]
    [InlineData(40)]
    public void Trials_of_an_input_with_few_degrees_of_freedom_follow_student_s_distribution(double freedom)
    {
        Measured trials = MonteCarlo.Of(x => x[0], [new("mean of a few", 0, 1, freedom)], trials: 400_000);
        double factor = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, freedom, 0.975);
        Near.Relative(factor, trials.Interval95.High, 0.02);
        Near.Relative(-factor, trials.Interval95.Low, 0.02);
    }

    [Fact]
    public void The_same_inputs_give_the_same_trials()
    {
        Input[] inputs = [new("exponent", 1, 0.5)];
        Assert.Equal(MonteCarlo.Of(x => Math.Exp(x[0]), inputs).Interval95, MonteCarlo.Of(x => Math.Exp(x[0]), inputs).Interval95);
    }

    [Fact]
    public void Inputs_that_move_together_cancel_in_a_difference()
    {
        double[,] together = { { 1, 0.99 }, { 0.99, 1 } };
        Input[] inputs = [new("a", 5, 0.2), new("b", 3, 0.2)];
        Near.Relative(0.2 * Math.Sqrt(2), Propagation.ByLaw(x => x[0] - x[1], inputs).Uncertainty, 1e-6);
        Near.Relative(0.2 * Math.Sqrt(0.02), Propagation.ByLaw(x => x[0] - x[1], inputs, together).Uncertainty, 1e-4);
        Near.Relative(0.2 * Math.Sqrt(0.02), MonteCarlo.Of(x => x[0] - x[1], inputs, together).Uncertainty, 0.03);
    }

    [Fact]
    public void Figures_worked_out_together_are_those_worked_out_one_by_one()
    {
        double[,] together = { { 1, 0.5 }, { 0.5, 1 } };
        Input[] inputs = [new("a", 5, 0.2, 8), new("b", 3, 0.1)];
        Measured[] both = Propagation.EachByLaw(x => [x[0] * x[1], x[0] - x[1]], inputs, together);
        foreach ((Measured one, Measured other) in both.Zip([Propagation.ByLaw(x => x[0] * x[1], inputs, together), Propagation.ByLaw(x => x[0] - x[1], inputs, together)]))
        {
            Assert.Equal((other.Value, other.Uncertainty, other.Freedom), (one.Value, one.Uncertainty, one.Freedom));
            Assert.Equal(other.Budget, one.Budget);
        }
    }

    [Theory]
    [InlineData(Shape.Normal)]
    [InlineData(Shape.Rectangular)]
    [InlineData(Shape.Triangular)]
    [InlineData(Shape.Arcsine)]
    public void Every_shape_has_the_standard_deviation_that_it_is_given(Shape shape) =>
        Near.Relative(0.3, MonteCarlo.Of(x => x[0], [new("a", 2, 0.3, Shape: shape)], trials: 100_000).Uncertainty, 0.01);

    /// <summary>Source: Student's table (from memory): 12.706, 4.303, 2.262, 1.960.</summary>
    [Theory]
    [InlineData(1, 12.706)]
    [InlineData(2, 4.303)]
    [InlineData(9, 2.262)]
    [InlineData(double.PositiveInfinity, 1.960)]
    public void Few_degrees_of_freedom_widen_the_interval(double freedom, double factor) => Near.Absolute(factor, Coverage.Factor95(freedom), 5e-4);

    [Theory]
    [InlineData(8912.4449, 6.134, "8912.4", "6.1")]
    [InlineData(53123.4, 612, "53120", "610")]
    [InlineData(0.123456, 0.0996, "0.12", "0.10")]
    [InlineData(0.00022, 0.0000031, "0.0002200", "0.0000031")]
    [InlineData(-3.14159, 0.02, "-3.142", "0.020")]
    public void A_number_is_shown_to_two_digits_of_its_uncertainty(double value, double u, string shown, string shownUncertainty) =>
        Assert.Equal((shown, shownUncertainty), Rounding.Of(value, u));

    [Fact]
    public void Without_an_uncertainty_six_digits_are_shown() => Assert.Equal(("3.14159", ""), Rounding.Of(Math.PI, null));

    [Fact]
    public void A_figure_in_a_smaller_unit_has_a_larger_uncertainty_and_the_same_interval()
    {
        Measured metres = new(2, 0.1) { Asymmetric = (1.9, 2.4), Budget = [new("tape", 0.1, 1)] };
        Measured millimetres = metres.Times(1000);
        Assert.Equal((1900, 2400), millimetres.Interval95);
        Assert.Equal(100, millimetres.Budget[0].Uncertainty);
        Assert.Equal((-2400, -1900), metres.Times(-1000).Interval95);
    }
}

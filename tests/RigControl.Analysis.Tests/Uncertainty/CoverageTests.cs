using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Uncertainty;

public class CoverageTests
{
    /// <summary>Source: Student's table (from memory).</summary>
    [Theory]
    [InlineData(1, 12.706)]
    [InlineData(4, 2.776)]
    [InlineData(10, 2.228)]
    [InlineData(double.PositiveInfinity, 1.960)]
    public void The_factor_for_95_percent_is_that_of_the_table(double freedom, double factor) => Near.Absolute(factor, Coverage.Factor95(freedom), 6e-4);

    /// <summary>Source: derived; the exact factor of the sum of a normal and a rectangular value, by quadrature.</summary>
    [Theory]
    [InlineData(0, 1.9600)]
    [InlineData(0.5, 1.9174)]
    [InlineData(0.75, 1.8356)]
    [InlineData(0.9, 1.7438)]
    [InlineData(1, 1.6454)]
    public void An_input_with_hard_ends_needs_a_smaller_factor(double share, double factor) => Near.Absolute(factor, 1.96 - Coverage.LessForFlat(share), 0.023);

    [Fact]
    public void A_value_known_to_a_step_is_held_as_often_as_its_interval_says()
    {
        SplitMix chance = new(31);
        int held = 0;
        for (int i = 0; i < 4000; i++)
        {
            double truth = chance.Uniform(0, 100), read = Math.Round(truth) + 0.05 * chance.Bell();
            (double low, double high) = Measured.Of(read, new Input("step", 0, Measured.OfResolution(1), Shape: Shape.Rectangular), new Input("noise", 0, 0.05)).Interval95;
            held += low <= truth && truth <= high ? 1 : 0;
        }

        // 4000 at 95 %: 3740 to 3860 but for one in a thousand; the factor is a little generous.
        Assert.InRange(held, 3740, 3880);
    }
}

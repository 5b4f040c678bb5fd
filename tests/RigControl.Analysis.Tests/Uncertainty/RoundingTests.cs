using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Uncertainty;

public class RoundingTests
{
    [Theory]
    [InlineData(8912.4321, 6.13, "8912.4", "6.1")]
    [InlineData(8912.4321, 61.3, "8912", "61")]
    [InlineData(8912.4321, 613, "8910", "610")]
    [InlineData(0.0111124, 0.0000052, "0.0111124", "0.0000052")]
    [InlineData(5, 0.0996, "5.00", "0.10")]
    [InlineData(7.8912e-10, 3.7e-11, "7.89e-10", "0.37e-10")]
    [InlineData(-2e-12, 3e-11, "-0.2e-11", "3.0e-11")]
    public void Numbers_are_shown_to_two_digits_of_their_uncertainty(double value, double uncertainty, string shown, string shownUncertainty)
    {
        (string v, string u) = Rounding.Of(value, uncertainty);
        Assert.Equal((shown, shownUncertainty), (v, u));
    }

    [Theory]
    [InlineData(null)]
    [InlineData(0.0)]
    public void Without_an_uncertainty_six_digits_are_shown(double? uncertainty) => Assert.Equal(("1.23457", ""), Rounding.Of(1.23456789, uncertainty));
}

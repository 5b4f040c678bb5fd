using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Reckonings;

namespace RigControl.Cli.Tests.Reckonings;

/// <summary>What a person states is taken in its unit and with its uncertainty, or refused with a sentence.</summary>
public class StatedValueTests
{
    [Theory]
    [InlineData("80 mm +- 0.1", "m", 0.08, 0.0001)]
    [InlineData("80mm±0.1", "m", 0.08, 0.0001)]
    [InlineData("0.5 kg", "kg", 0.5, 0)]
    [InlineData("500 g +- 1", "kg", 0.5, 0.001)]
    [InlineData("1e-4 kg.m2 +- 1e-6", "kg.m2", 1e-4, 1e-6)]
    [InlineData("68 degF +- 0.9", "degC", 20, 0.5)]
    [InlineData("-5 degC", "degC", -5, 0)]
    public void A_value_its_unit_and_its_uncertainty_are_read(string text, string unit, double value, double uncertainty)
    {
        Input stated = StatedValue.Read(text, "it", unit);
        Assert.Equal((value, uncertainty), (Math.Round(stated.Value, 12), Math.Round(stated.Uncertainty, 12)));
    }

    [Fact]
    public void A_bare_number_is_taken_only_where_the_unit_is_understood()
    {
        Assert.Equal(new Input("it", 1e-4, 2e-6), StatedValue.Read("0.0001 +- 0.000002", "it", "kg.m2", bare: true));
        Assert.Contains("its unit is missing", Refused(() => StatedValue.Read("0.0001", "it", "kg.m2")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "write it as VALUE UNIT")]
    [InlineData("0,5 kg", "write it as VALUE UNIT")]
    [InlineData("half a kg", "write it as VALUE UNIT")]
    [InlineData("1e999 kg", "write it as VALUE UNIT")]
    [InlineData("1 kg +- 1e999", "its uncertainty is not a number")]
    [InlineData("1 kg +- -1", "write it as VALUE UNIT")]
    [InlineData("5 mm", "'mm' is no unit for it: write one of g, kg")]
    [InlineData("0 kg", "above 0")]
    [InlineData("-1 kg", "above 0")]
    [InlineData("1 kg +- 0.5", "more than a third of it")]
    public void What_cannot_be_meant_is_refused_with_what_to_write(string text, string why)
    {
        string said = Refused(() => StatedValue.Positive(text, "mass", "kg"));
        Assert.Contains(why, said, StringComparison.Ordinal);
        Assert.StartsWith($"mass '{text}'", said, StringComparison.Ordinal);
    }

    private static string Refused(Func<Input> read) => Assert.Throws<CliException>(() => { read(); }).Message;
}

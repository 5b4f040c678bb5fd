using System.Globalization;
using CsCheck;
using RigControl.Cli.Runs;
using RigControl.Model.Records;

namespace RigControl.Cli.Tests.Runs;

/// <summary>What a person typed becomes a figure that claims no more than the instrument shows.</summary>
public class TypedReadingTests
{
    [Theory]
    [InlineData("8912", 1)]
    [InlineData("8900", 1)]
    [InlineData("12.30", 0.01)]
    [InlineData("-0.5", 0.1)]
    [InlineData("1.25e3", 10)]
    [InlineData("4e-3", 0.001)]
    public void The_step_is_that_of_the_last_digit_typed(string typed, double step) => Assert.Equal(step, TypedReading.LastDigit(typed), 1e-12);

    [Fact]
    public void Values_separated_by_commas_are_repeats()
    {
        IReadOnlyList<Figure> figures = TypedReading.Read("peak-speed=8912, 8920 ,8899 rpm");
        Assert.Equal([(1, 8912.0), (2, 8920.0), (3, 8899.0)], figures.Select(f => (f.Repeat, f.Value!.Value)));
        Assert.All(figures, f => Assert.Equal("rpm", f.Unit));
    }

    [Fact]
    public void The_uncertainty_is_the_step_over_the_root_of_twelve_and_the_interval_95_percent_of_the_step()
    {
        Figure figure = Assert.Single(TypedReading.Read("mass=182 g +-2"));
        Assert.Equal(2 / Math.Sqrt(12), figure.StandardUncertainty!.Value, 1e-12);
        Assert.Equal((182 - 0.95, 182 + 0.95), figure.Interval95);
        Assert.Contains("read to 2 g", figure.Method, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("coast-down-time=10.5 s", 10.5, "s", 0.1)]
    [InlineData("reaction-time=42 ms", 0.042, "s", 0.001)]
    [InlineData("steady-speed=100 Hz", 6000, "rpm", 60)]
    [InlineData("temperature-rise=9 K", 9, "K", 1)]
    [InlineData("success-rate=80 %", 80, "%", 1)]
    public void A_reading_is_kept_in_the_unit_in_which_figures_of_its_kind_are(string text, double value, string unit, double step)
    {
        Figure figure = Assert.Single(TypedReading.Read(text));
        Assert.Equal(unit, figure.Unit);
        Assert.Equal(value, figure.Value!.Value, 1e-9);
        Assert.Equal(step / Math.Sqrt(12), figure.StandardUncertainty!.Value, 1e-9);
    }

    [Theory]
    [InlineData("")]
    [InlineData("=")]
    [InlineData("mass=")]
    [InlineData("mass=1")]
    [InlineData("mass=1 stone")]
    [InlineData("mass=1,5,, g")]
    [InlineData("Mass=1 g")]
    [InlineData("mass=1 g +-0")]
    [InlineData("mass=1e999 g")]
    public void What_cannot_be_read_is_bad_input_and_quotes_what_was_typed(string text)
    {
        CliException refused = Assert.Throws<CliException>(() => TypedReading.Read(text));
        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
        Assert.Contains($"'{text}'", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_text_at_all_does_anything_but_give_figures_or_a_sentence() => Gen.String.Sample(text =>
    {
        try
        {
            Assert.NotEmpty(TypedReading.Read(text));
        }
        catch (CliException refused)
        {
            Assert.NotEmpty(refused.Message);
        }
    });

    [Fact]
    public void Every_number_that_is_typed_comes_back() => Gen.Select(Gen.Int[-999_999, 999_999], Gen.Int[0, 4]).Sample((digits, places) =>
    {
        string typed = (digits / Math.Pow(10, places)).ToString($"F{places}", CultureInfo.InvariantCulture);
        Figure figure = Assert.Single(TypedReading.Read($"peak-current={typed} A"));
        Assert.Equal(double.Parse(typed, CultureInfo.InvariantCulture), figure.Value!.Value, 1e-9);
        Assert.Equal(Math.Pow(10, -places) / Math.Sqrt(12), figure.StandardUncertainty!.Value, 1e-12);
    });
}

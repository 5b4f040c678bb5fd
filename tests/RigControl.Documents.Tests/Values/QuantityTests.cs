using RigControl.Documents.Values;

namespace RigControl.Documents.Tests.Values;

public class QuantityTests
{
    [Theory]
    [InlineData("60 %", 60, "%")]
    [InlineData("60%", 60, "%")]
    [InlineData("-5.5 degC", -5.5, "degC")]
    [InlineData("1.8e-4 kg.m2", 1.8e-4, "kg.m2")]
    [InlineData("2E3 rpm", 2000, "rpm")]
    [InlineData("0.5 1", 0.5, "1")]
    [InlineData("60", 60, "")]
    [InlineData("61", 61, "")]
    [InlineData("3S", 3, "S")]
    [InlineData("2  s", 2, "s")]
    public void A_number_and_its_unit_are_told_apart(string text, double value, string unit) => Assert.Equal(new(value, unit), Quantity.Parse(text));

    [Theory]
    [InlineData("")]
    [InlineData("fast")]
    [InlineData("+5 s")]
    [InlineData(".5 s")]
    [InlineData("5. s")]
    [InlineData("1,000 rpm")]
    [InlineData("1 000 rpm")]
    [InlineData("0x10 s")]
    [InlineData("NaN s")]
    [InlineData("Infinity s")]
    [InlineData("1e400 s")]
    [InlineData("５ s")]
    public void What_could_be_misread_is_no_number(string text) =>
        Assert.True(Quantity.Parse(text) is null || Units.Canonical(Quantity.Parse(text)!.Value.Unit) is null);

    [Theory]
    [InlineData("0,5 s", "0.5 s")]
    [InlineData("-2,25", "-2.25")]
    [InlineData("0.5 s", null)]
    [InlineData("1,2,3", null)]
    public void A_decimal_comma_is_recognised(string text, string? pointed) => Assert.Equal(pointed, Quantity.WithoutComma(text));

    [Theory]
    [InlineData(60, "60")]
    [InlineData(-2.5, "-2.5")]
    [InlineData(0, "0")]
    [InlineData(86_400, "86400")]
    [InlineData(0.1 + 0.2, "0.3")]
    [InlineData(1e-9, "1e-9")]
    [InlineData(-1e-9, "-1e-9")]
    public void A_number_is_shown_as_a_person_writes_it(double value, string shown) => Assert.Equal(shown, Quantity.Show(value));

    [Theory]
    [InlineData(1, 2, "from 1 s to 2 s")]
    [InlineData(1, double.PositiveInfinity, "of at least 1 s")]
    [InlineData(double.NegativeInfinity, 2, "of at most 2 s")]
    [InlineData(double.NegativeInfinity, double.PositiveInfinity, "in s")]
    public void A_range_is_named_with_its_unit(double minimum, double maximum, string said) => Assert.Equal(said, new Bounds("s", minimum, maximum).ToString());

    [Theory]
    [InlineData(1, true)]
    [InlineData(2, true)]
    [InlineData(0.999, false)]
    [InlineData(2.001, false)]
    [InlineData(double.NaN, false)]
    public void Both_ends_of_a_range_belong_to_it_and_no_number_does_not(double value, bool within) => Assert.Equal(within, new Bounds("s", 1, 2).Hold(value));
}

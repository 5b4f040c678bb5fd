using RigControl.Documents.Values;

namespace RigControl.Documents.Tests.Values;

/// <summary>A value keeps its meaning in whatever unit it is written.</summary>
public class UnitsTests
{
    /// <summary>Every pair of units of which one may be written where the other is due.</summary>
    public static TheoryData<string, string> Pairs { get; } =
        [.. Units.Symbols.SelectMany(due => Units.Accepted(due).Select(written => (written, due)))];

    [Theory, MemberData(nameof(Pairs))]
    public void A_value_comes_back_from_any_unit_as_it_went(string from, string to)
    {
        foreach (double value in new[] { 0, 1, -40, 0.00018225, 12_345.678 })
            Assert.Equal(value, Units.Convert(Units.Convert(value, from, to), to, from), 1e-9 * Math.Max(1, Math.Abs(value)));
    }

    [Theory, MemberData(nameof(Pairs))]
    public void A_difference_comes_back_from_any_unit_as_it_went(string from, string to) =>
        Assert.Equal(12.5, Units.ConvertDifference(Units.ConvertDifference(12.5, from, to), to, from), 1e-9);

    // Factors of NIST SP 811 (2008), appendix B.8, from memory; the exact ones follow from the definitions of inch, pound and
    // standard gravity. Tolerances are half a unit of the last digit given there, or rounding.
    [Theory]
    [InlineData(1, "lb", "kg", 0.45359237, 1e-12)]
    [InlineData(1, "oz", "g", 28.349523125, 1e-9)]
    [InlineData(1, "in", "mm", 25.4, 1e-12)]
    [InlineData(1, "ft", "m", 0.3048, 1e-12)]
    [InlineData(1, "ft/s", "m/s", 0.3048, 1e-12)]
    [InlineData(1, "mph", "m/s", 0.44704, 1e-12)]
    [InlineData(1, "kgf", "N", 9.80665, 1e-12)]
    [InlineData(1, "lbf", "N", 4.4482216152605, 1e-12)]
    [InlineData(1, "lbf.in", "N.m", 0.1129848, 5e-8)]
    [InlineData(1, "ozf.in", "mN.m", 7.061552, 5e-7)]
    [InlineData(1, "Wh", "J", 3600, 1e-9)]
    [InlineData(212, "degF", "degC", 100, 1e-9)]
    [InlineData(-40, "degF", "degC", -40, 1e-9)]
    [InlineData(0, "K", "degC", -273.15, 1e-9)]
    public void Imperial_and_everyday_units_follow_the_published_factors(double value, string from, string to, double expected, double tolerance) =>
        Assert.Equal(expected, Units.Convert(value, from, to), tolerance);

    // Derived: a turn is 360 deg or 2 pi rad; 1 kg.m2 is 1000 g times a million mm2; prefixes of the SI.
    [Theory]
    [InlineData(1, "Hz", "rpm", 60)]
    [InlineData(6, "deg/s", "rpm", 1)]
    [InlineData(2 * Math.PI, "rad/s", "rpm", 60)]
    [InlineData(1e9, "g.mm2", "kg.m2", 1)]
    [InlineData(1, "N.m", "mN.m", 1000)]
    [InlineData(80, "mOhm", "Ohm", 0.08)]
    [InlineData(1300, "mAh", "Ah", 1.3)]
    [InlineData(12_600, "mV", "V", 12.6)]
    [InlineData(1.5, "A", "mA", 1500)]
    [InlineData(36, "km/h", "m/s", 10)]
    [InlineData(1, "ms", "us", 1000)]
    [InlineData(1, "s", "us", 1e6)]
    public void Multiples_of_one_unit_follow_from_their_definition(double value, string from, string to, double expected) =>
        Assert.Equal(expected, Units.Convert(value, from, to), 1e-9 * expected);

    [Theory]
    [InlineData(9, "degF", "degC", 5)]
    [InlineData(2, "K", "degC", 2)]
    [InlineData(2, "degC", "K", 2)]
    [InlineData(1, "Hz", "rpm", 60)]
    public void A_difference_of_temperatures_knows_no_zero_point(double value, string from, string to, double expected) =>
        Assert.Equal(expected, Units.ConvertDifference(value, from, to), 1e-9);

    [Theory]
    [InlineData("rad/s", "rpm")]
    [InlineData("Hz", "rpm")]
    [InlineData("mV", "V")]
    [InlineData("mA", "A")]
    [InlineData("K", "degC")]
    [InlineData("degF", "degC")]
    [InlineData("s", "us")]
    [InlineData("kgf", "N")]
    [InlineData("ozf.in", "N.m")]
    [InlineData("kg", "g")]
    [InlineData("in", "m")]
    [InlineData("mph", "m/s")]
    [InlineData("%", "%")]
    [InlineData("1", "1")]
    [InlineData("parsec", null)]
    public void Each_kind_has_one_unit_in_which_channels_are_declared(string unit, string? canonical) =>
        Assert.Equal(canonical, Units.Canonical(unit));

    [Fact]
    public void Every_unit_is_of_a_kind_with_a_canonical_unit() => Assert.All(Units.Symbols, unit => Assert.NotNull(Units.Canonical(unit)));

    [Theory]
    [InlineData(1, "ms", "us", 1000)]
    [InlineData(1.5, "ms", "us", 1500)]
    [InlineData(0.0015, "s", "us", 1500)]
    [InlineData(180, "g", "kg", 0.18)]
    [InlineData(45, "mm", "m", 0.045)]
    [InlineData(353.15, "K", "degC", 80)]
    [InlineData(176, "degF", "degC", 80)]
    public void The_same_value_in_two_units_is_the_same_to_the_last_bit(double value, string from, string to, double same) =>
        Assert.Equal(same, Units.Convert(value, from, to));

    [Fact]
    public void A_margin_in_kelvin_cannot_be_written_as_a_temperature() => Assert.Equal(["K"], Units.Accepted("K"));

    [Fact]
    public void A_unit_that_only_a_plugin_knows_stands_alone() => Assert.Equal(["K/s"], Units.Accepted("K/s"));
}

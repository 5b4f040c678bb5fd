using RigControl.Documents.Values;
using RigControl.Telemetry.Payloads;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Payloads;

/// <summary>
/// Units are told in the codes of the Unified Code for Units of Measure. Codes from memory, worked out with the standard's own table
/// (read) and held against the project's conversions, which are another library's.
/// </summary>
public class UcumTests
{
    [Fact]
    public void Every_unit_that_a_file_may_use_has_a_code() => Assert.All(Units.Symbols, unit => Assert.True(Ucum.Knows(unit), $"{unit} has no code"));

    [Fact]
    public void Every_code_means_what_the_unit_means()
    {
        // Temperatures are of the standard's special kind; its angle has a dimension, so that a turn and a radian cannot be compared there.
        string[] apart = ["degC", "degF", "rad/s", "deg/s"];
        Assert.All(Units.Symbols.Except(apart), unit =>
        {
            string canonical = unit == "K" ? "K" : Units.Canonical(unit)!;
            (UcumCode code, UcumCode due) = (UcumCode.Of(Ucum.Of(unit)), UcumCode.Of(Ucum.Of(canonical)));
            Assert.Equal(due.Dimensions, code.Dimensions);
            Assert.Equal(1, code.Factor / due.Factor / Units.Convert(1, unit, canonical), 1e-9);
        });
        Assert.Equal(Units.Convert(1, "deg/s", "rad/s"), UcumCode.Of(Ucum.Of("deg/s")).Factor / UcumCode.Of(Ucum.Of("rad/s")).Factor, 1e-9);
    }

    [Theory]
    [InlineData("rpm")]
    [InlineData("lb")]
    [InlineData("degC")]
    [InlineData("N m")]
    [InlineData("[lb]")]
    public void What_is_no_code_is_noticed(string notCode) => Assert.Throws<FormatException>(() => UcumCode.Of(notCode));

    [Theory]
    [InlineData("rpm", "{rev}/min")]
    [InlineData("degC", "Cel")]
    [InlineData("degF", "[degF]")]
    [InlineData("mAh", "mA.h")]
    [InlineData("lbf", "[lbf_av]")]
    [InlineData("in", "[in_i]")]
    [InlineData("V", "V")]
    [InlineData("N.m.s2", "N.m.s2")]
    [InlineData("N.m/A", "N.m/A")]
    [InlineData("%", "%")]
    public void A_unit_is_told_by_its_code(string unit, string code) => Assert.Equal(code, Ucum.Of(unit));

    [Theory]
    [InlineData("bananas", "{bananas}")]
    [InlineData("weird{unit}", "{weirdunit}")]
    [InlineData("µ x", "{x}")]
    public void A_unit_of_a_plugin_s_own_is_told_as_an_annotation_that_breaks_no_code(string unit, string code) => Assert.Equal(code, Ucum.Of(unit));
}

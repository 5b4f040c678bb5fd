using RigControl.Documents.Values;
using RigControl.Telemetry.Payloads;

namespace RigControl.Telemetry.Tests.Payloads;

/// <summary>Units are told in the codes of the Unified Code for Units of Measure. Codes from memory of its tables.</summary>
public class UcumTests
{
    [Fact]
    public void Every_unit_that_a_file_may_use_has_a_code() => Assert.All(Units.Symbols, unit => Assert.True(Ucum.Knows(unit), $"{unit} has no code"));

    [Theory]
    [InlineData("rpm", "{rev}/min")]
    [InlineData("degC", "Cel")]
    [InlineData("degF", "[degF]")]
    [InlineData("mAh", "mA.h")]
    [InlineData("lbf", "[lbf_av]")]
    [InlineData("in", "[in_i]")]
    [InlineData("V", "V")]
    [InlineData("N.m.s2", "N.m.s2")]
    [InlineData("%", "%")]
    public void A_unit_is_told_by_its_code(string unit, string code) => Assert.Equal(code, Ucum.Of(unit));

    [Theory]
    [InlineData("bananas", "{bananas}")]
    [InlineData("weird{unit}", "{weirdunit}")]
    [InlineData("µ x", "{x}")]
    public void A_unit_of_a_plugin_s_own_is_told_as_an_annotation_that_breaks_no_code(string unit, string code) => Assert.Equal(code, Ucum.Of(unit));
}

using RigControl.Logbook.Tests.Support;
using RigControl.Logbook.Texts;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests.Texts;

/// <summary>A run's header as text.</summary>
public class HeaderTextTests
{
    [Fact]
    public void Channels_keep_their_limits_even_without_an_end()
    {
        RunHeader back = HeaderText.Read(HeaderText.Write(RunMaker.Header("a1")));
        Assert.Equal(RunMaker.Header("a1").Channels, back.Channels);
        Assert.Equal(double.NegativeInfinity, back.Channels[0].Declaration.Minimum);
    }

    [Fact]
    public void Clock_calibrations_and_options_come_back_and_a_header_of_before_has_none()
    {
        RunHeader plain = RunMaker.Header("a1");
        RunHeader full = plain with
        {
            Clock = "real", Calibrations = [new("battery.current", DateTimeOffset.UnixEpoch, null, "0.1 A + 1.02 x", "a shunt")],
            Devices = [.. plain.Devices.Select(d => d with { Options = new Dictionary<string, string> { ["ambient"] = "20" } })],
        };
        RunHeader back = HeaderText.Read(HeaderText.Write(full));
        Assert.Equal(("real", "20"), (back.Clock, back.Devices[0].Options["ambient"]));
        Assert.Equal(full.Calibrations, back.Calibrations);
        string before = HeaderText.Write(plain).Replace("\"clock\":\"\",\"calibrations\":[],", "", StringComparison.Ordinal).Replace(",\"options\":{}", "", StringComparison.Ordinal);
        Assert.DoesNotContain("calibrations", before, StringComparison.Ordinal);
        RunHeader old = HeaderText.Read(before);
        Assert.Equal("", old.Clock);
        Assert.Empty(old.Calibrations);
        Assert.Empty(old.Devices[0].Options);
    }

    [Fact]
    public void A_seed_keeps_all_its_bits() => Assert.Equal(ulong.MaxValue - 6, HeaderText.Read(HeaderText.Write(RunMaker.Header("a1"))).Seed);

    [Fact]
    public void A_field_that_this_program_does_not_know_is_passed_over() =>
        Assert.Equal("a1", HeaderText.Read("{\"weather\":\"fair\"," + HeaderText.Write(RunMaker.Header("a1"))[1..]).Run);

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("{\"run\":1}")]
    public void What_is_no_header_is_damage(string text) => Assert.Throws<InvalidDataException>(() => HeaderText.Read(text));
}

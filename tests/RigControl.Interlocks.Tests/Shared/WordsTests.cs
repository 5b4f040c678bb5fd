using RigControl.Interlocks.Shared;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests.Shared;

public class WordsTests
{
    [Theory]
    [InlineData(81.26, "81.3")]
    [InlineData(80, "80")]
    [InlineData(9123.4, "9123")]
    [InlineData(123.46, "123.5")]
    [InlineData(3.256, "3.26")]
    [InlineData(0.1234, "0.123")]
    [InlineData(-0.00001, "0")]
    [InlineData(-12.34, "-12.3")]
    [InlineData(double.NaN, "no number")]
    [InlineData(double.NegativeInfinity, "no number")]
    public void Numbers_are_shown_with_three_or_four_figures(double value, string text) => Assert.Equal(text, Words.Number(value));

    [Fact]
    public void Numbers_beyond_every_sensor_stay_short() => Assert.InRange(Words.Number(double.MaxValue).Length, 1, 12);

    [Theory]
    [InlineData(80.0001, 80, "80.0001")]
    [InlineData(9000.3, 9000, "9000.3")]
    [InlineData(80, 80, "80")]
    [InlineData(79.96, 80, "79.96")]
    public void A_number_gets_as_many_figures_as_tell_it_from_its_limit(double value, double limit, string text) =>
        Assert.Equal(text, Words.Apart(value, limit));

    [Theory]
    [InlineData("motor.temperature", "degC", "motor 5 °C")]
    [InlineData("left.front-motor.temperature", "degC", "left front motor 5 °C")]
    [InlineData("vibration", "m/s2", "vibration 5 m/s2")]
    [InlineData("output.pulse", "us", "output 5 µs")]
    [InlineData("winding.resistance", "Ohm", "winding 5 Ω")]
    [InlineData("outside.temperature", "degF", "outside 5 °F")]
    [InlineData("stop.clear", "1", "stop 5")]
    public void A_reading_names_what_it_belongs_to_and_its_unit(string name, string unit, string text) =>
        Assert.Equal(text, Words.Reading(Channel(name, unit), 5, 10));

    [Fact]
    public void A_channel_is_named_in_words() => Assert.Equal("enclosure lid open", Words.Name(Channel("enclosure.lid-open", "1")));

    private static Channel Channel(string name, string unit) => new(0, name, 0, new ChannelDeclaration
    {
        Name = name, Unit = unit, Minimum = 0, Maximum = 1, Period = TimeSpan.FromSeconds(1), MaximumAge = TimeSpan.FromSeconds(1),
    });
}

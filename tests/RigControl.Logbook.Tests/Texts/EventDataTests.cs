using RigControl.Logbook.Tests.Support;
using RigControl.Logbook.Texts;

namespace RigControl.Logbook.Tests.Texts;

/// <summary>An event's values keep their kind.</summary>
public class EventDataTests
{
    [Fact]
    public void Values_come_back_as_they_were()
    {
        Dictionary<string, object> data = new()
        {
            ["speed"] = 5.0, ["margin"] = -0.0, ["large"] = 1e300, ["scan"] = 12L, ["hash"] = ulong.MaxValue, ["lid"] = true, ["who"] = "a \"name\"", ["empty"] = "",
        };
        Assert.Equal(data, EventData.Read(EventData.Write(data)));
    }

    [Fact]
    public void Every_double_comes_back_bit_for_bit_but_for_the_payload_of_a_NaN() => Seeds.Each(2000, random =>
    {
        double value = Doubles.Any(random, 0.1);
        double back = Assert.IsType<double>(EventData.Read(EventData.Write(new Dictionary<string, object> { ["v"] = value }))["v"]);
        Assert.True(double.IsNaN(value) ? double.IsNaN(back) : BitConverter.DoubleToInt64Bits(value) == BitConverter.DoubleToInt64Bits(back), $"{value:R} came back as {back:R}");
    });

    [Fact]
    public void A_small_whole_number_comes_back_as_a_long_and_anything_else_as_text()
    {
        Dictionary<string, object> data = new() { ["step"] = 3, ["state"] = DayOfWeek.Monday };
        Assert.Equal(new Dictionary<string, object> { ["step"] = 3L, ["state"] = "Monday" }, EventData.Read(EventData.Write(data)));
    }

    [Theory]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("{\"v\":{}}")]
    public void What_is_no_event_data_is_damage(string text) => Assert.Throws<InvalidDataException>(() => EventData.Read(text));
}

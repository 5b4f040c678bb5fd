using RigControl.Logbook.Texts;

namespace RigControl.Logbook.Tests.Texts;

/// <summary>Wall-clock times as text.</summary>
public class WallTimeTests
{
    [Fact]
    public void A_time_comes_back_to_the_tick_and_in_UTC()
    {
        DateTimeOffset time = new DateTimeOffset(2031, 12, 31, 23, 59, 59, TimeSpan.FromHours(-5)).AddTicks(1234567);
        Assert.Equal("2032-01-01T04:59:59.1234567Z", WallTime.Write(time));
        Assert.Equal(time, WallTime.Read(WallTime.Write(time)));
        Assert.Equal(TimeSpan.Zero, WallTime.Read(WallTime.Write(time)).Offset);
    }

    [Fact]
    public void Times_sort_as_text_as_they_do_as_times()
    {
        Random random = new(8);
        DateTimeOffset[] times = [.. Enumerable.Range(0, 200).Select(_ => AnyTime(random))];
        Assert.Equal(times.Order().Select(WallTime.Write), times.Select(WallTime.Write).Order(StringComparer.Ordinal));
    }

    private static DateTimeOffset AnyTime(Random random)
    {
        long ticks = random.NextInt64(TimeSpan.TicksPerDay, DateTime.MaxValue.Ticks - TimeSpan.TicksPerDay);
        return new DateTimeOffset(ticks, TimeSpan.Zero).ToOffset(TimeSpan.FromHours(random.Next(-12, 13)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("yesterday")]
    [InlineData("2031-12-31")]
    public void What_is_no_time_is_damage(string text) => Assert.Throws<InvalidDataException>(() => WallTime.Read(text));
}

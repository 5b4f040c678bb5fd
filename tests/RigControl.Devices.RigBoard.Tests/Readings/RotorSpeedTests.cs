using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Readings;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Tests.Readings;

public class RotorSpeedTests
{
    private static readonly TimeSpan CoastDown = TimeSpan.FromSeconds(60);

    [Theory]
    [InlineData(1, 6000u, 10_000)]
    [InlineData(2, 3000u, 10_000)]
    [InlineData(7, 1_000_000u, 60.0 / 7)]
    public void Speed_comes_from_the_time_between_two_pulses(int pulses, uint period, double rpm) =>
        Assert.Equal((rpm, Quality.Good), Round(new RotorSpeed(pulses, CoastDown).At(Status(period, period / 2), Seconds(1))));

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void Between_pulses_the_speed_of_the_last_turn_stands_and_no_time_lowers_it()
    {
        RotorSpeed speed = new(1, CoastDown);
        foreach (uint age in new uint[] { 100_000, 400_000, 790_000 })
            Assert.Equal((300, Quality.Good), Round(speed.At(Status(200_000, age), Seconds(1 + age / 1e6))));
    }

    [Fact]
    public void A_rotor_that_never_turned_stands_still() =>
        Assert.Equal((0, Quality.Good), new RotorSpeed(1, CoastDown).At(Status(0, RotorSpeed.LongestAge), Seconds(1)));

    [Fact]
    public void A_rotor_that_ran_down_slowly_stands_still_after_ten_seconds_without_pulse() =>
        Assert.Equal((0, Quality.Good), new RotorSpeed(1, CoastDown).At(Status(400_000, RotorSpeed.LongestAge), Seconds(20)));

    [Fact]
    public void Pulses_that_break_off_at_speed_are_no_standstill_until_the_longest_coast_down_has_passed()
    {
        RotorSpeed speed = new(1, CoastDown);
        Assert.Equal(Quality.Good, speed.At(Status(6000, 3000), Seconds(10)).Quality);
        Assert.Equal(Quality.Good, speed.At(Status(6000, 23_000), Seconds(10.02)).Quality);
        Assert.Equal(Quality.Bad, speed.At(Status(6000, 25_000), Seconds(10.022)).Quality);
        Assert.Equal(Quality.Bad, speed.At(Status(0, RotorSpeed.LongestAge), Seconds(69)).Quality);
        Assert.Equal((0, Quality.Good), speed.At(Status(0, RotorSpeed.LongestAge), Seconds(70.1)));
    }

    [Fact]
    public void Power_that_stays_on_puts_off_the_end_of_the_doubt()
    {
        RotorSpeed speed = new(1, CoastDown);
        speed.At(Status(6000, 3000), Seconds(10));
        Assert.Equal(Quality.Bad, speed.At(Status(6000, 30_000, BoardBits.ContactorClosed), Seconds(11)).Quality);
        Assert.Equal(Quality.Bad, speed.At(Status(0, RotorSpeed.LongestAge, BoardBits.ContactorClosed), Seconds(50)).Quality);
        Assert.Equal(Quality.Bad, speed.At(Status(0, RotorSpeed.LongestAge), Seconds(109)).Quality);
        Assert.Equal(Quality.Good, speed.At(Status(0, RotorSpeed.LongestAge), Seconds(110.1)).Quality);
    }

    [Fact]
    public void A_tachometer_that_the_board_found_lost_proves_no_standstill()
    {
        RotorSpeed speed = new(1, CoastDown);
        BoardStatus lost = Status(0, RotorSpeed.LongestAge, BoardBits.None, BoardCauses.Tachometer);
        Assert.Equal(Quality.Bad, speed.At(lost, Seconds(5)).Quality);
        Assert.Equal(Quality.Bad, speed.At(lost, Seconds(64)).Quality);
        Assert.Equal(Quality.Good, speed.At(lost, Seconds(65.1)).Quality);
    }

    [Fact]
    public void A_silence_waited_out_is_not_doubted_again_when_power_comes_back()
    {
        RotorSpeed speed = new(1, CoastDown);
        speed.At(Status(6000, 30_000), Seconds(10));
        Assert.Equal(Quality.Good, speed.At(Status(6000, RotorSpeed.LongestAge), Seconds(80)).Quality);
        Assert.Equal(Quality.Good, speed.At(Status(6000, RotorSpeed.LongestAge, BoardBits.ContactorClosed), Seconds(81)).Quality);
    }

    [Fact]
    public void A_whole_turn_that_comes_back_ends_the_doubt()
    {
        RotorSpeed speed = new(1, CoastDown);
        Assert.Equal(Quality.Bad, speed.At(Status(6000, 30_000), Seconds(10)).Quality);
        Assert.Equal((9000, Quality.Good), Round(speed.At(Status(6667, 100) with { Pulses = 2 }, Seconds(10.1))));
    }

    private static BoardStatus Status(uint period, uint age, BoardBits bits = BoardBits.None, BoardCauses latched = BoardCauses.None) =>
        new() { Period = period, Age = age, Bits = bits, Latched = latched };

    private static (double, Quality) Round((double Value, Quality Quality) reading) => (Math.Round(reading.Value, 0) is var whole && Math.Abs(whole - reading.Value) < 1 && reading.Value > 100 ? whole : reading.Value, reading.Quality);

    private static TimeSpan Seconds(double value) => TimeSpan.FromSeconds(value);
}

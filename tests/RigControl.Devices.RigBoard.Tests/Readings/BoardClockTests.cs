using CsCheck;
using RigControl.Devices.RigBoard.Readings;

namespace RigControl.Devices.RigBoard.Tests.Readings;

public class BoardClockTests
{
    private const double Frame = 5000;

    [Theory]
    [InlineData(0)]
    [InlineData(0.005)]
    [InlineData(-0.005)]
    [InlineData(0.015)]
    [InlineData(-0.015)]
    public void A_clock_that_drifts_is_followed_to_a_millisecond(double drift)
    {
        Random chance = new(3);
        BoardClock clock = new();
        for (int i = 0; i < 12_000; i++)
        {
            double truth = 1e6 + i * Frame;
            double error = Map(clock, i * Frame * (1 + drift), truth, chance.NextDouble() * 4000) - truth;
            if (i > 1000)
                Assert.InRange(error, -1000, 1000);
        }
    }

    [Fact]
    public void From_the_first_line_on_the_error_is_no_more_than_the_lateness_of_the_lines()
    {
        Random chance = new(5);
        BoardClock clock = new();
        for (int i = 0; i < 1000; i++)
        {
            double truth = 1e6 + i * Frame;
            Assert.InRange(Map(clock, i * Frame * 1.005, truth, chance.NextDouble() * 8000) - truth, -4000, 8000);
        }
    }

    [Fact]
    public void The_wrap_of_the_boards_clock_after_35_minutes_is_not_seen()
    {
        BoardClock clock = new();
        double start = (1L << 31) - 2e6;
        for (int i = 0; i < 800; i++)
        {
            double truth = 1e6 + i * Frame;
            uint time = (uint)((long)(start + i * Frame) % (1L << 31));
            TimeSpan mapped = clock.HostTime(time, Microseconds(truth));
            Assert.InRange(mapped.Ticks / 10.0 - truth, -1, 1);
        }
    }

    [Fact]
    public void Lines_lost_for_a_second_do_not_shift_what_follows()
    {
        BoardClock clock = new();
        for (int i = 0; i < 2000; i++)
        {
            double truth = 1e6 + i * Frame;
            if (i % 400 is > 100 and < 300)
                continue;
            double error = Map(clock, i * Frame * 1.003, truth, i % 7 * 300) - truth;
            if (i > 1200)
                Assert.InRange(error, -2000, 2000);
        }
    }

    [Theory]
    [InlineData(40)]
    [InlineData(160)]
    public void A_host_held_up_for_a_while_hardly_pulls_the_line_after_it(int frames)
    {
        BoardClock clock = new();
        for (int i = 0; i < 3000; i++)
        {
            double truth = 1e6 + i * Frame;
            int within = i % 500;
            double held = within >= 300 && within < 300 + frames ? (300 + frames - within) * Frame : 0;
            Assert.InRange(Map(clock, i * Frame, truth, held) - truth, -100, 1000);
        }
    }

    [Fact]
    public void A_lateness_that_lasts_is_taken_for_true_in_the_end()
    {
        BoardClock clock = new();
        double error = 0;
        for (int i = 0; i < 8000; i++)
            error = Map(clock, i * Frame, 1e6 + i * Frame, i < 2000 ? 0 : 40_000) - (1e6 + i * Frame);
        Assert.InRange(error, 39_000, 40_000);
    }

    [Fact]
    public void Whatever_arrives_no_time_is_later_than_its_arrival_and_none_runs_backwards() =>
        Gen.Select(Gen.Double[-0.02, 0.02], Gen.Double[0, 50_000].Array[300, 900]).Sample(
            (drift, late) =>
            {
                BoardClock clock = new();
                TimeSpan before = TimeSpan.Zero;
                double arrived = 0;
                for (int i = 0; i < late.Length; i++)
                {
                    arrived = Math.Max(arrived, 1e6 + i * Frame + late[i]);
                    TimeSpan arrival = Microseconds(arrived);
                    TimeSpan mapped = clock.HostTime((uint)(i * Frame * (1 + drift)), arrival);
                    if (mapped > arrival || mapped < before)
                        return false;
                    before = mapped;
                }

                return true;
            },
            seed: "0000KeXZQq03", iter: 300);

    private static double Map(BoardClock clock, double board, double truth, double late) =>
        clock.HostTime((uint)board, Microseconds(truth + late)).Ticks / 10.0;

    private static TimeSpan Microseconds(double value) => TimeSpan.FromTicks((long)(value * 10));
}

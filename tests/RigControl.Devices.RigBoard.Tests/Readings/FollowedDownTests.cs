using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Readings;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Tests.Readings;

/// <summary>Standstill is believed of a rotor whose marks were seen to slow down, and of none whose marks broke off.</summary>
public class FollowedDownTests(ITestOutputHelper output)
{
    private const double Frame = 0.005;
    private const double Limit = 100;
    private const double Steady = 1e-6;
    private static readonly TimeSpan CoastDown = TimeSpan.FromSeconds(60);

    public static TheoryData<double, double, int> Losses()
    {
        TheoryData<double, double, int> losses = [];
        foreach (double lost in new[] { 2000.0, 900, 500, 300, 150 })
            foreach (double friction in new[] { 0, 20.0, 60 })
                foreach (int marks in new[] { 1, 2 })
                    losses.Add(lost, friction, marks);
        return losses;
    }

    public static TheoryData<double, double, int> RunDowns()
    {
        TheoryData<double, double, int> ways = [];
        foreach (double speed in new[] { 2000.0, 700 })
            foreach (double friction in new[] { 20.0, 50, 100, 200, 400 })
                foreach (int marks in new[] { 1, 2 })
                    ways.Add(speed, friction, marks);
        return ways;
    }

    [Trait("Requirement", "SAF-093")]
    [Theory]
    [MemberData(nameof(Losses))]
    public void A_lead_that_is_lost_at_speed_never_reads_as_a_rotor_that_stands(double lost, double friction, int marks)
    {
        // Steady where nothing slows it, else seen over six turns before it is lost.
        double speed = Math.Sqrt(lost * lost + 2 * friction * 60 * 6);
        RunDown rotor = new(speed, friction, Steady, marks, 0.3);
        RunDown blind = new(speed, friction, Steady, marks, 0.3) { LostAt = friction == 0 ? -0.01 : rotor.When(lost) };
        RotorSpeed reading = new(marks, CoastDown);
        Follower host = new(Limit);
        double least = double.MaxValue;
        for (double t = -RunDown.Driven; t < 59; t += Frame)
        {
            (double value, Quality quality) = reading.At(blind.At(t), Seconds(t));
            host.See(t, value, quality);
            least = quality == Quality.Bad ? least : Math.Min(least, value);
            Assert.False(host.Stands, $"at {t} s");
        }

        Assert.Equal(SpeedDoubt.BrokeOff, reading.Doubt);
        Assert.InRange(least, 0.98 * lost, speed);
    }

    [Trait("Requirement", "SAF-093")]
    [Theory]
    [InlineData(500, true)]
    [InlineData(300, false)]
    public void When_the_longest_coast_down_is_over_it_reads_0_and_only_from_four_limits_down_without_a_look(double lost, bool asksForLook)
    {
        RunDown blind = new(lost, 20, Steady, 1, 0.3) { LostAt = 0 };
        RotorSpeed reading = new(1, CoastDown);
        Follower host = new(Limit);
        for (double t = -RunDown.Driven; t < 63; t += Frame)
        {
            (double value, Quality quality) = reading.At(blind.At(t), Seconds(t));
            host.See(t, value, quality);
            Assert.False(host.Stands && t < 60, $"at {t} s");
        }

        Assert.Equal((0, Quality.Good), reading.At(blind.At(63), Seconds(63)));
        Assert.Equal(!asksForLook, host.Stands);
    }

    [Trait("Requirement", "SAF-093")]
    [Theory]
    [MemberData(nameof(RunDowns))]
    public void A_rotor_that_runs_down_honestly_is_never_doubted_and_stands_soon_after_it_does(double speed, double friction, int marks)
    {
        foreach (double phase in new[] { 0.01, 0.25, 0.5, 0.75, 0.99 })
        {
            RunDown rotor = new(speed, friction, Steady, marks, phase);
            double told = Told(rotor, marks, Limit);
            // Four times the last turn at the longest, and the second below the limit.
            double last = Math.Sqrt(2 * 60 / friction / marks);
            Assert.True(told < rotor.RestAt + 1 + 4 * last + 2 * Frame, $"{told} s, at rest since {rotor.RestAt} s, phase {phase}");
        }
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void Over_many_random_rotors_only_one_that_stands_reads_so_and_none_that_runs_down_honestly_is_doubted()
    {
        int seed = Environment.TickCount;
        output.WriteLine($"seed {seed}");
        Random chance = new(seed);
        for (int n = 0; n < 1000; n++)
        {
            int marks = chance.Next(1, 7);
            (double speed, double friction, double drag) = (700 + 2000 * chance.NextDouble(), 20 + 380 * chance.NextDouble(), 0.001 + 0.3 * chance.NextDouble());
            RunDown rotor = new(speed, friction, drag, marks, chance.NextDouble());
            Assert.True(Told(rotor, marks, Limit, chance) < rotor.RestAt + 12, $"seed {seed}, rotor {n}: {speed} rpm, {friction} rpm/s, {drag} 1/s, {marks} marks");
            // Lost at any speed, which is another rotor to the reader only from there on.
            RunDown blind = new(speed, friction, drag, marks, chance.NextDouble()) { LostAt = rotor.RestAt * chance.NextDouble(), Missed = [.. Enumerable.Range(1, 3).Where(_ => chance.Next(6) == 0)] };
            MustNotStandWhileItTurns(blind, marks, chance, $"seed {seed}, rotor {n}: {speed} rpm, {friction} rpm/s, {drag} 1/s, {marks} marks, lost at {blind.Speed(blind.LostAt)} rpm, missed {string.Join(' ', blind.Missed)}");
        }
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void A_mark_that_is_missed_before_the_lead_comes_off_is_not_taken_for_slowing()
    {
        RunDown blind = new(500, 20, Steady, 1, 0.3) { LostAt = 2, Missed = [1] };
        RotorSpeed reading = new(1, CoastDown);
        for (double t = -RunDown.Driven; t < 50; t += Frame)
            reading.At(blind.At(t), Seconds(t));
        Assert.Equal(SpeedDoubt.BrokeOff, reading.Doubt);
    }

    [Trait("Requirement", "SAF-093")]
    [Theory]
    [InlineData(new[] { 1 }, 1)]
    [InlineData(new[] { 1, 2 }, 1)]
    [InlineData(new[] { 1, 3 }, 1)]
    [InlineData(new[] { 1, 2, 3 }, 1)]
    [InlineData(new[] { 1 }, 2)]
    [InlineData(new[] { 1, 2, 3 }, 2)]
    [InlineData(new[] { 1, 3 }, 2)]
    public void Marks_that_are_missed_before_the_lead_comes_off_lower_no_speed(int[] missed, int marks)
    {
        for (double lost = 110; lost < 400; lost += 5)
        {
            RunDown rotor = new(800, 30, 0.01, marks, 0.3);
            RunDown blind = new(800, 30, 0.01, marks, 0.3) { LostAt = rotor.When(lost), Missed = missed };
            RotorSpeed reading = new(marks, CoastDown);
            for (double t = -RunDown.Driven; t < rotor.RestAt; t += Frame)
            {
                (double value, Quality quality) = reading.At(blind.At(t), Seconds(t));
                Assert.True(quality == Quality.Bad || value >= rotor.Speed(t) * 0.999, $"lost at {lost} rpm: {value} rpm was read at {rotor.Speed(t)} rpm");
            }
        }
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void Three_slow_turns_in_a_row_are_believed_however_hard_a_brake_gripped()
    {
        RotorSpeed reading = new(1, CoastDown);
        Turn(reading, 100_000, 5, BoardBits.None);
        List<double> read = [.. Enumerable.Range(0, 3).Select(n => reading.At(Mark((ushort)(6 + n), 500_000 + 250_000 * ((uint)n + 1), 250_000), Seconds(0.75 + 0.25 * n)).Value)];
        Assert.Equal([600, 600, 240], read);
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void A_driven_rotor_that_slows_at_once_is_read_at_once()
    {
        RotorSpeed reading = new(1, CoastDown);
        Turn(reading, 100_000, 5, BoardBits.ContactorClosed);
        Assert.Equal((240, Quality.Good), reading.At(Mark(6, 750_000, 250_000) with { Mode = BoardMode.Spin, Bits = BoardBits.ContactorClosed }, Seconds(0.75)));
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void One_pulse_of_a_lead_that_flaps_makes_no_slow_turn_of_the_silence_before_it()
    {
        RotorSpeed reading = new(1, CoastDown);
        Turn(reading, 200_000, 5, BoardBits.ContactorClosed);
        Assert.Equal(Quality.Bad, reading.At(Silent(5, 1_000_000, 200_000), Seconds(3)).Quality);
        Assert.Equal((300, Quality.Bad), reading.At(Mark(6, 2_000_000, 1_000_000), Seconds(4)));
        Assert.Equal(Quality.Good, reading.At(Mark(7, 2_200_000, 200_000), Seconds(4.2)).Quality);
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void A_rotor_that_is_driven_comes_to_no_rest_however_fast_it_was_slowing()
    {
        RotorSpeed reading = new(1, CoastDown);
        uint time = 0, period = 100_000;
        for (ushort n = 1; n < 6; n++, period += 40_000)
            reading.At(Mark(n, time += period, period) with { Mode = BoardMode.Spin, Bits = BoardBits.ContactorClosed }, Seconds(time / 1e6));
        BoardStatus silent = Silent(5, time + 2_000_000, period - 40_000) with { Mode = BoardMode.Spin, Bits = BoardBits.ContactorClosed, Age = 2_000_000 };
        Assert.Equal(Quality.Bad, reading.At(silent, Seconds(time / 1e6 + 2)).Quality);
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void A_driven_rotor_that_turns_about_is_not_doubted()
    {
        RotorSpeed reading = new(1, CoastDown);
        BoardStatus turning = Silent(5, 1_000_000, 100_000) with { Mode = BoardMode.Spin, Bits = BoardBits.ContactorClosed, Age = 500_000 };
        reading.At(turning with { Age = 1 }, Seconds(1));
        Assert.Equal((600, Quality.Good), reading.At(turning, Seconds(1.5)));
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void A_shaft_that_a_hand_turns_and_stops_stands_at_once()
    {
        RotorSpeed reading = new(1, CoastDown);
        Turn(reading, 600_000, 3, BoardBits.None);
        Assert.Equal((100, Quality.Good), reading.At(Silent(3, 3_000_000, 600_000) with { Age = 2_000_000 }, Seconds(5)));
        Assert.Equal((0, Quality.Good), reading.At(Silent(3, 3_400_000, 600_000) with { Age = 2_400_000 }, Seconds(5.4)));
    }

    // When it was said to stand, s. Never doubted on the way, and not before it is slower than the limit.
    private static double Told(RunDown rotor, int marks, double limit, Random? chance = null)
    {
        RotorSpeed reading = new(marks, CoastDown);
        Follower host = new(limit);
        double told = double.NaN;
        for (double t = -RunDown.Driven; double.IsNaN(told) && t < rotor.RestAt + 20; t += Frame)
        {
            if (chance?.Next(10) == 0)
                continue;
            (double value, Quality quality) = reading.At(rotor.At(t), Seconds(t));
            host.See(t, value, quality);
            Assert.True(quality == Quality.Good, $"doubted at {t} s, at rest from {rotor.RestAt} s");
            Assert.True(value >= rotor.Speed(t) * 0.999, $"{value} rpm is below the true {rotor.Speed(t)} rpm at {t} s");
            if (host.Stands)
                told = t;
        }

        Assert.True(rotor.Speed(told - 1) < limit);
        return told;
    }

    private static void MustNotStandWhileItTurns(RunDown blind, int marks, Random chance, string which)
    {
        RotorSpeed reading = new(marks, CoastDown);
        Follower host = new(Limit);
        for (double t = -RunDown.Driven; t < 59; t += Frame)
        {
            if (chance.Next(10) == 0)
                continue;
            (double value, Quality quality) = reading.At(blind.At(t), Seconds(t));
            host.See(t, value, quality);
            Assert.False(host.Stands && blind.Speed(t) >= Limit, $"{which}: {blind.Speed(t)} rpm at {t} s");
        }
    }

    // A mark each period.
    private static void Turn(RotorSpeed reading, uint period, ushort marks, BoardBits bits)
    {
        for (ushort n = 1; n <= marks; n++)
            reading.At(Mark(n, n * period, period) with { Bits = bits, Mode = BoardMode.Live }, Seconds(n * period / 1e6));
    }

    private static BoardStatus Mark(ushort pulses, uint time, uint period) => new() { Pulses = pulses, Time = time, Period = period, Age = 0 };

    private static BoardStatus Silent(ushort pulses, uint time, uint period) => new() { Pulses = pulses, Time = time, Period = period, Age = time };

    private static TimeSpan Seconds(double t) => TimeSpan.FromSeconds(t + 10);
}

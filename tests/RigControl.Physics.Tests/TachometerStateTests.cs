namespace RigControl.Physics.Tests;

public class TachometerStateTests
{
    private static readonly Tachometer Exact = new(1, 0.5e-6, 0);

    [Theory]
    [InlineData(1, 50)]
    [InlineData(1, 1300)]
    [InlineData(7, 1300)]
    [InlineData(14, 3)]
    public void A_steady_speed_is_read_to_the_resolution_of_the_timer(int pulses, double speed)
    {
        Tachometer data = Exact with { PulsesPerRevolution = pulses };
        TachometerState state = Turned(data, speed, 5, TachometerFault.None);
        double period = 2 * Math.PI / (pulses * speed);
        Near.Relative(speed, state.Speed(data), data.TimerTick / period + 1e-9);
    }

    [Fact]
    public void Each_turn_gives_one_edge_for_each_mark()
    {
        Tachometer data = Exact with { PulsesPerRevolution = 3 };
        Assert.Equal(300, Turned(data, 2 * Math.PI * 100.001, 1, TachometerFault.None).Edges);
    }

    [Fact]
    public void Periods_are_whole_timer_ticks()
    {
        Tachometer coarse = Exact with { TimerTick = 64e-6 };
        double ticks = Turned(coarse, 777, 1, TachometerFault.None).Period / 64e-6;
        Near.Absolute(Math.Round(ticks), ticks, 1e-9);
    }

    [Fact]
    public void Rounding_to_ticks_loses_no_time_in_the_long_run()
    {
        Tachometer coarse = Exact with { TimerTick = 100e-6 };
        var state = new TachometerState();
        var chance = new SplitMix(1);
        double sum = 0;
        long before = 0;
        for (int i = 0; i < 200_000; i++)
        {
            state.Advance(coarse, 900 * 0.0005, TachometerFault.None, ref chance, 0.0005);
            sum += state.Edges > before && before > 0 ? state.Period : 0;
            before = state.Edges;
        }

        Near.Relative(2 * Math.PI / 900, sum / (state.Edges - 1), 1e-5);
    }

    [Fact]
    public void One_edge_is_not_yet_a_speed()
    {
        TachometerState state = Turned(Exact, 2 * Math.PI * 1.5, 1, TachometerFault.None);
        Assert.Equal(1, state.Edges);
        Assert.Equal(0, state.Speed(Exact));
    }

    [Fact]
    public void A_rotor_that_stops_reads_lower_and_lower()
    {
        var chance = new SplitMix(1);
        TachometerState state = Turned(Exact, 1000, 1, TachometerFault.None);
        for (int i = 0; i < 1000; i++)
            state.Advance(Exact, 0, TachometerFault.None, ref chance, 0.001);
        Assert.InRange(state.Speed(Exact), 0, 2 * Math.PI);
        Assert.InRange(state.Age, 1, 1.01);
    }

    [Theory]
    [InlineData(TachometerFault.Doubled, 2)]
    [InlineData(TachometerFault.Halved, 0.5)]
    public void Marks_seen_twice_or_missed_falsify_the_speed_by_that_factor(TachometerFault fault, double factor)
        => Near.Relative(800 * factor, Turned(Exact, 800, 2, fault).Speed(Exact), 1e-3);

    [Fact]
    public void A_silent_pick_up_gives_no_edges()
        => Assert.Equal(0, Turned(Exact, 800, 2, TachometerFault.Silent).Edges);

    [Fact]
    public void Jitter_scatters_the_periods_about_the_right_one()
    {
        Tachometer noisy = Exact with { Jitter = 20e-6, TimerTick = 1e-9 };
        var state = new TachometerState();
        var chance = new SplitMix(5);
        List<double> periods = [];
        long before = 0;
        for (int i = 0; i < 100_000; i++)
        {
            state.Advance(noisy, 1000 * 0.0005, TachometerFault.None, ref chance, 0.0005);
            if (state.Edges > before && before > 0)
                periods.Add(state.Period);
            before = state.Edges;
        }

        double mean = periods.Average();
        Near.Relative(2 * Math.PI / 1000, mean, 1e-4);
        // A period lies between two edges, each with its own jitter.
        Near.Relative(20e-6 * Math.Sqrt(2), Math.Sqrt(periods.Average(p => (p - mean) * (p - mean))), 0.03);
    }

    [Fact]
    public void The_direction_makes_no_difference()
        => Assert.Equal(Turned(Exact, 500, 1, TachometerFault.None).Period, Turned(Exact, -500, 1, TachometerFault.None).Period);

    private static TachometerState Turned(Tachometer data, double speed, double time, TachometerFault fault)
    {
        var state = new TachometerState();
        var chance = new SplitMix(1);
        for (int i = 0; i < (int)Math.Round(time / 0.001); i++)
            state.Advance(data, speed * 0.001, fault, ref chance, 0.001);
        return state;
    }
}

namespace RigControl.Kernel.Tests;

/// <summary>What ends a step.</summary>
public class ConditionTests
{
    private const string Temperature = ChannelNames.MotorTemperature;

    /// <summary>A rig that rests until a condition is met; the time it took, or null where it had not ended after 2 s.</summary>
    private static double? EndsAfter(Condition condition, Func<double, double> reading, Action<KernelBench, double>? spoil = null)
    {
        Step rest = Steps.Rest() with { For = null, Until = [condition], Timeout = Steps.Seconds(100) };
        KernelBench bench = new KernelBench(new RigBuilder().Does(rest)).ToStandstill();
        bench.Read(Temperature, reading(0)).Do(CommandKind.Reset);
        TimeSpan begun = bench.Record.Now;
        for (double t = 0; t < 2; t = (bench.Record.Now - begun).TotalSeconds)
        {
            bench.Read(Temperature, reading(t));
            spoil?.Invoke(bench, t);
            if (bench.Scan().Record.Finished)
                return Math.Round((bench.Record.Now - begun).TotalSeconds, 3);
        }

        return null;
    }

    [Fact]
    public void Below_ends_when_the_highest_reading_is_below() =>
        Assert.Equal(1.015, EndsAfter(Steps.Below(Temperature, 40), t => t > 1.005 ? 39.9 : 40));

    [Fact]
    public void Above_ends_when_the_lowest_reading_is_above() =>
        Assert.Equal(1.015, EndsAfter(Steps.Above(Temperature, 40), t => t > 1.005 ? 40.1 : 40));

    [Fact]
    public void A_spike_between_two_scans_does_not_end_a_step()
    {
        Assert.Null(EndsAfter(Steps.Above(Temperature, 40), _ => 30, (bench, _) => bench.Image[bench.Place(Temperature)].Maximum = 50));
        Assert.Null(EndsAfter(Steps.Below(Temperature, 40), _ => 50, (bench, _) => bench.Image[bench.Place(Temperature)].Minimum = 30));
    }

    [Fact]
    public void A_condition_must_hold_without_a_break()
    {
        Condition below = Steps.Below(Temperature, 40, 0.5);
        Assert.Equal(0.5, EndsAfter(below, _ => 30));
        Assert.Equal(0.91, EndsAfter(below, t => t is > 0.397 and < 0.402 ? 41 : 30));
    }

    [Fact]
    public void A_bad_reading_breaks_a_condition()
    {
        Condition below = Steps.Below(Temperature, 40, 0.5);
        Assert.Equal(0.91, EndsAfter(below, _ => 30, (bench, t) => { if (t is > 0.397 and < 0.402) bench.Lose(Temperature); }));
        Assert.Null(EndsAfter(below, _ => 30, (bench, _) => bench.Lose(Temperature)));
    }

    [Fact]
    public void Steady_ends_when_the_band_was_kept_for_the_time_asked() =>
        Assert.Equal(0.5, EndsAfter(Steps.Steady(Temperature, 1, false, 0.5), t => 30 + (int)(t * 200 + 0.5) % 2));

    [Fact]
    public void A_slow_climb_never_counts_as_steady() =>
        Assert.Null(EndsAfter(Steps.Steady(Temperature, 1, false, 0.5), t => 30 + 3 * t));

    [Fact]
    public void Leaving_the_band_starts_it_again() =>
        Assert.Equal(0.91, EndsAfter(Steps.Steady(Temperature, 1, false, 0.5), t => t > 0.397 ? 40 : 30));

    [Fact]
    public void A_relative_band_is_a_share_of_the_middle()
    {
        Condition steady = Steps.Steady(Temperature, 0.01, true, 0.2);
        Assert.Equal(0.2, EndsAfter(steady, t => 1000 + (int)(t * 200 + 0.5) % 2 * 10));
        Assert.Null(EndsAfter(steady, t => 1000 + (int)(t * 200 + 0.5) % 2 * 11));
        Assert.Equal(0.2, EndsAfter(steady, t => -1000 - (int)(t * 200 + 0.5) % 2 * 10));
    }

    [Theory]
    [InlineData(ConditionKind.Below)]
    [InlineData(ConditionKind.Above)]
    [InlineData(ConditionKind.SteadyWithin)]
    public void What_is_not_a_number_meets_no_condition(ConditionKind kind) =>
        Assert.Null(EndsAfter(new Condition(Temperature, kind, 1, false, TimeSpan.Zero), _ => double.NaN));

    [Fact]
    public void The_first_of_several_conditions_ends_the_step()
    {
        Step rest = Steps.Rest() with
        {
            For = Steps.Seconds(3), Until = [Steps.Above(Temperature, 90), Steps.Below(Temperature, 40, 0.5)], Timeout = Steps.Seconds(10),
        };
        KernelBench bench = new KernelBench(new RigBuilder().Does(rest)).ToIdle();
        TimeSpan begun = bench.Record.Now;
        bench.ScanUntil(() => bench.Record.Finished);
        Assert.Equal(0.5, (bench.Record.Now - begun).TotalSeconds);
    }

    [Fact]
    public void A_condition_of_one_step_leaves_nothing_behind_for_the_next()
    {
        Condition below = Steps.Below(Temperature, 40, 0.5);
        Step rest = Steps.Rest() with { For = null, Until = [below], Timeout = Steps.Seconds(10) };
        KernelBench bench = new KernelBench(new RigBuilder().Does(rest, rest)).ToIdle();
        TimeSpan begun = bench.Record.Now;
        bench.ScanUntil(() => bench.Record.Finished);
        Assert.Equal(1.005, (bench.Record.Now - begun).TotalSeconds);
    }
}

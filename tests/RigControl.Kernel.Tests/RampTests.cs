namespace RigControl.Kernel.Tests;

/// <summary>How the output rises, stays and falls.</summary>
public class RampTests
{
    private static List<double> Levels(KernelBench bench, double seconds)
    {
        List<double> levels = [bench.Outputs.Throttle];
        bench.OnScan = () => levels.Add(bench.Outputs.Throttle);
        bench.ScanFor(seconds);
        bench.OnScan = null;
        return levels;
    }

    private static KernelBench Doing(params Step[] steps) => new(new RigBuilder().Does(steps));

    [Fact]
    public void A_ramp_rises_evenly_from_stop_to_its_level()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.6, ramp: 0.5), Steps.Hold(), Steps.CoastDown()).ToWarning().ScanUntil(RigState.SpinUp);
        List<double> levels = Levels(bench, 0.5);
        Assert.Equal(Enumerable.Range(0, 101).Select(i => 0.6 * i / 100), levels, (a, b) => Math.Abs(a - b) < 1e-12);
    }

    [Fact]
    public void A_step_without_a_ramp_rises_no_faster_than_the_article_allows()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(1, ramp: 0), Steps.Hold(), Steps.CoastDown()).ToWarning().ScanUntil(RigState.SpinUp);
        List<double> levels = Levels(bench, 0.4);
        Assert.Equal(0.02, levels[0], 12);
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, 0, 0.02 + 1e-12));
        Assert.Equal(1, levels[^1]);
    }

    [Fact]
    public void A_hold_keeps_the_level_exactly()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.6), Steps.Hold(1), Steps.CoastDown()).ToHold();
        Assert.All(Levels(bench, 0.9), level => Assert.Equal(0.6, level));
    }

    [Fact]
    [Trait("Requirement", "SAF-004")]
    public void A_rise_from_a_level_has_its_own_three_seconds_of_warning()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.3), Steps.Hold(), Steps.SpinUp(0.6), Steps.Hold(), Steps.CoastDown()).ToHold();
        bench.ScanUntil(() => bench.Outputs.Warning);
        TimeSpan warned = bench.Now;
        bench.OnScan = () => Assert.True(bench.Rig == RigState.SpinUp || bench.Outputs is { Throttle: 0.3, Warning: true });
        bench.ScanUntil(RigState.SpinUp);
        Assert.Equal((Configuration.WarningTime, false), (bench.Now - warned, bench.Outputs.Warning));
    }

    [Fact]
    public void A_rise_straight_from_a_rise_and_one_to_the_other_side_have_it_too()
    {
        RigBuilder rig = new RigBuilder().Drives(RigBuilder.TwoWay);
        rig.Procedure = rig.Procedure with { Steps = [Steps.Arm(), Steps.SpinUp(0.3), Steps.SpinUp(0.6), Steps.SpinUp(-0.2), Steps.CoastDown()] };
        KernelBench bench = new KernelBench(rig).ToSpinUp();
        foreach (double level in new[] { 0.3, 0.6 })
        {
            bench.ScanUntil(() => bench.Outputs.Warning);
            TimeSpan warned = bench.Now;
            Assert.Equal(level, bench.Outputs.Throttle);
            bench.ScanUntil(() => !bench.Outputs.Warning);
            Assert.Equal(Configuration.WarningTime, bench.Now - warned);
        }
    }

    [Fact]
    public void A_fall_to_a_lower_level_needs_no_warning()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.6), Steps.Hold(), Steps.SpinUp(0.2), Steps.Hold(), Steps.CoastDown()).ToHold();
        bench.OnScan = () => Assert.False(bench.Outputs.Warning);
        bench.ScanUntil(RigState.CoastDown);
    }

    [Fact]
    public void A_trip_during_the_warning_before_a_further_rise_stops_and_takes_the_warning_back()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.3), Steps.Hold(), Steps.SpinUp(0.6), Steps.CoastDown()).ToHold();
        bench.ScanUntil(() => bench.Outputs.Warning);
        bench.Do(CommandKind.Stop);
        Assert.Equal((RigState.SafeStop, 0, false), (bench.Rig, bench.Outputs.Throttle, bench.Outputs.Warning));
    }

    [Fact]
    public void A_further_rise_starts_from_the_level_held()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.3), Steps.Hold(), Steps.SpinUp(0.6, ramp: 1), Steps.Hold(), Steps.CoastDown()).ToHold();
        bench.ScanUntil(RigState.SpinUp);
        List<double> levels = Levels(bench, 1);
        Assert.Equal((0.3, 0.6), (levels[0], levels[^1]));
        Assert.Equal(0.45, levels[100], 9);
    }

    [Fact]
    public void A_spin_up_to_a_lower_level_falls_along_its_ramp()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.6), Steps.Hold(), Steps.SpinUp(0.2, ramp: 1), Steps.Hold(), Steps.CoastDown()).ToHold();
        bench.ScanUntil(RigState.SpinUp);
        List<double> levels = Levels(bench, 1);
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second <= pair.First));
        Assert.Equal((0.6, 0.2), (levels[0], levels[^1]));
    }

    [Fact]
    public void A_coast_down_lets_go_at_once_and_keeps_the_power()
    {
        KernelBench bench = new KernelBench().ToHold();
        double before = bench.Outputs.Throttle;
        bench.ScanUntil(RigState.CoastDown);
        Assert.Equal((0.6, 0, 1000, OutputSwitches.Power), (before, bench.Outputs.Throttle, bench.Outputs.Pulse, bench.Outputs.Switches));
    }

    [Fact]
    public void A_trip_drops_a_rising_output_to_stop_in_the_same_scan()
    {
        ScriptedInterlock lid = new();
        KernelBench bench = new KernelBench(new RigBuilder().With("lid", lid)).ToSpinUp().ScanFor(0.2);
        Assert.True(bench.Outputs.Throttle > 0.1);
        lid.Action = DemandAction.StopOutput;
        bench.Scan();
        Assert.Equal((0, 1000), (bench.Outputs.Throttle, bench.Outputs.Pulse));
    }

    [Fact]
    public void A_late_scan_does_not_let_the_output_rise_faster()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(1, ramp: 0), Steps.Hold(), Steps.CoastDown()).ToWarning().ScanUntil(RigState.SpinUp);
        double before = bench.Outputs.Throttle;
        bench.Now += TimeSpan.FromMilliseconds(30);
        bench.Scan();
        Assert.Equal(before + 0.02, bench.Outputs.Throttle, 12);
    }

    [Fact]
    public void A_spin_up_is_not_done_before_its_ramp_even_if_its_condition_is_met()
    {
        KernelBench bench = Doing(Steps.Arm(), Steps.SpinUp(0.6, 0.5, 5, Steps.Above(ChannelNames.RotorSpeed, 10)), Steps.Hold(), Steps.CoastDown());
        bench.ToSpinUp();
        TimeSpan since = bench.Record.Now;
        bench.ScanUntil(RigState.Hold);
        Assert.Equal(0.6, bench.Outputs.Throttle);
        Assert.InRange((bench.Record.Now - since).TotalSeconds, 0.5, 0.51);
    }
}

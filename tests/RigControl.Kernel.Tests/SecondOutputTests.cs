namespace RigControl.Kernel.Tests;

/// <summary>A second output is held to everything that the first one is.</summary>
public class SecondOutputTests
{
    private static readonly ControllerProfile Servo = RigBuilder.OneWay with
    {
        Mode = ControllerMode.Servo, StopPulse = 1200, MinimumPulse = 1100, MaximumPulse = 1900, ArmingTime = TimeSpan.FromSeconds(1),
    };

    private readonly ScriptedInterlock _lid = new();

    private KernelBench Rig(params Step[] steps) => new(new RigBuilder().With("lid", _lid).DrivesSecond(Servo).Does(
        steps.Length > 0 ? steps : [Steps.Arm(), Steps.SpinUp(0.6, 0.5) with { SecondThrottle = 0.5 }, Steps.Hold(), Steps.CoastDown()]));

    [Fact]
    public void It_stands_at_its_own_stop_until_a_step_raises_it_and_after_the_last_one()
    {
        KernelBench bench = Rig();
        bench.OnScan = () => Assert.True(bench.Rig is RigState.SpinUp or RigState.Hold || (bench.Outputs.SecondThrottle, bench.Outputs.SecondPulse) == (0, 1200));
        bench.ToHold();
        Assert.Equal((0.5, 1550), (bench.Outputs.SecondThrottle, bench.Outputs.SecondPulse));
        bench.ScanUntil(RigState.CoastDown).ScanFor(1);
    }

    [Fact]
    public void Both_outputs_reach_their_levels_together_with_the_ramp()
    {
        KernelBench bench = Rig().To(RigState.SpinUp).ScanFor(0.25);
        Assert.Equal(0.3, bench.Outputs.Throttle, 0.01);
        Assert.Equal(0.25, bench.Outputs.SecondThrottle, 0.01);
    }

    [Fact]
    public void It_rises_no_faster_than_the_article_allows()
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(0.6, 0) with { SecondThrottle = 1 }, Steps.Hold(), Steps.CoastDown());
        double before = 0;
        bench.OnScan = () =>
        {
            Assert.True(bench.Outputs.SecondThrottle - before <= 4 * 0.005 + 1e-12);
            before = bench.Outputs.SecondThrottle;
        };
        bench.ToHold();
        Assert.Equal(1, bench.Outputs.SecondThrottle);
    }

    [Trait("Requirement", "SAF-065")]
    [Theory]
    [InlineData(DemandAction.StopOutput)]
    [InlineData(DemandAction.CutPower)]
    public void Every_interlock_brings_it_to_its_stop_at_once(DemandAction action)
    {
        KernelBench bench = Rig().ToHold();
        _lid.Action = action;
        bench.Scan();
        Assert.Equal((RigState.SafeStop, 0, 1200), (bench.Rig, bench.Outputs.SecondThrottle, bench.Outputs.SecondPulse));
    }

    [Fact]
    public void A_rise_of_the_second_alone_from_a_level_is_warned_of()
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(0.6, 0.5), Steps.Hold(), Steps.SpinUp(0.6, 0.5) with { SecondThrottle = 0.5 }, Steps.Hold(), Steps.CoastDown()).ToHold();
        double warned = 0;
        bench.OnScan = () => warned += bench.Outputs.Warning ? 0.005 : 0;
        bench.ScanUntil(() => bench.Outputs.SecondThrottle > 0);
        Assert.InRange(warned, 2.99, 3.02);
    }

    [Fact]
    public void Arming_waits_for_the_slower_of_the_two()
    {
        KernelBench bench = Rig().To(RigState.Arming);
        TimeSpan since = bench.Now;
        bench.ScanUntil(() => bench.Record.Phase == ArmingPhase.AwaitingStart);
        Assert.Equal(1, (bench.Now - since).TotalSeconds, 0.02);
    }

    [Theory]
    [InlineData(-1.1, "step 2 asks for a level of the second output of -110 %, but the second controller takes -100 % to 100 %")]
    [InlineData(1.1, "step 2 asks for a level of the second output of 110 %, but the second controller takes -100 % to 100 %")]
    public void A_level_that_it_cannot_take_is_refused(double level, string reason) => Assert.Contains(reason, Assert.Throws<ConfigurationException>(
        () => Rig(Steps.Arm(), Steps.SpinUp() with { SecondThrottle = level }, Steps.CoastDown())).Reasons);

    [Fact]
    public void An_article_without_a_second_controller_has_nothing_to_raise()
    {
        RigBuilder one = new RigBuilder().Does(Steps.Arm(), Steps.SpinUp() with { SecondThrottle = 0.5 }, Steps.CoastDown());
        Assert.Contains("step 2 drives a second output, but the article says nothing of a second controller", Assert.Throws<ConfigurationException>(one.Build).Reasons);
        KernelBench bench = new KernelBench(new RigBuilder()).ToHold();
        Assert.Equal((0, 0), (bench.Outputs.SecondThrottle, bench.Outputs.SecondPulse));
    }

    [Trait("Requirement", "SAF-065")]
    [Fact]
    public void The_guard_stops_a_second_output_that_nothing_permits()
    {
        KernelBench bench = Rig().ToHold();
        Assert.True(OutputGuard.Permits(bench.Configuration, bench.State, bench.Outputs));
        Assert.False(OutputGuard.Permits(bench.Configuration, bench.State, bench.Outputs with { SecondThrottle = 0.6 }));
        Assert.False(OutputGuard.Permits(bench.Configuration, bench.State, bench.Outputs with { SecondPulse = 1600 }));
        Assert.False(OutputGuard.Permits(bench.Configuration, bench.State, bench.Outputs with { SecondThrottle = double.NaN }));
        bench.ScanUntil(RigState.CoastDown);
        Assert.False(OutputGuard.Permits(bench.Configuration, bench.State, bench.Outputs with { SecondPulse = 1201 }));
        Assert.False(OutputGuard.Permits(bench.Configuration, bench.State, bench.Outputs with { SecondThrottle = 1e-9 }));
        KernelBench one = new KernelBench(new RigBuilder()).ToHold();
        Assert.False(OutputGuard.Permits(one.Configuration, one.State, one.Outputs with { SecondPulse = 1500 }));
    }
}

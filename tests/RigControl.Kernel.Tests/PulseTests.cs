namespace RigControl.Kernel.Tests;

/// <summary>The pulse that each kind of controller gets. Nothing here assumes where its stop is.</summary>
public class PulseTests
{
    private static KernelBench Held(ControllerProfile controller, double throttle) =>
        new KernelBench(new RigBuilder().Drives(controller).Does(Steps.Arm(), Steps.SpinUp(throttle), Steps.Hold(), Steps.CoastDown())).ToHold();

    [Fact]
    public void A_one_way_controller_gets_a_pulse_between_its_stop_and_its_longest() =>
        Assert.Equal(1600, Held(RigBuilder.OneWay, 0.6).Outputs.Pulse, 9);

    [Fact]
    public void A_reversed_controller_gets_a_shorter_pulse_for_more_throttle() =>
        Assert.Equal(1400, Held(RigBuilder.OneWay with { Direction = PulseDirection.Shorter, StopPulse = 2000 }, 0.6).Outputs.Pulse, 9);

    [Fact]
    public void A_two_way_controller_turns_both_ways_from_its_centre()
    {
        Assert.Equal(1800, Held(RigBuilder.TwoWay, 0.6).Outputs.Pulse, 9);
        Assert.Equal(1200, Held(RigBuilder.TwoWay, -0.6).Outputs.Pulse, 9);
    }

    [Fact]
    public void A_two_way_controller_with_an_uneven_centre_reaches_both_ends()
    {
        ControllerProfile uneven = RigBuilder.TwoWay with { StopPulse = 1400 };
        Assert.Equal(2000, Held(uneven, 1).Outputs.Pulse, 9);
        Assert.Equal(1000, Held(uneven, -1).Outputs.Pulse, 9);
    }

    [Fact]
    public void A_servo_with_its_stop_in_the_middle_goes_both_ways_and_one_with_its_stop_at_its_end_only_one()
    {
        ControllerProfile servo = RigBuilder.TwoWay with { Mode = ControllerMode.Servo };
        Assert.Equal(1700, Held(servo, 0.4).Outputs.Pulse, 9);
        Assert.Equal(1300, Held(servo, -0.4).Outputs.Pulse, 9);
        Assert.False((servo with { StopPulse = 1000 }).GoesBelowStop);
        Assert.False((servo with { StopPulse = 2000, Direction = PulseDirection.Shorter }).GoesBelowStop);
        Assert.Throws<ConfigurationException>(() => Held(servo with { StopPulse = 1000 }, -0.4));
    }

    [Fact]
    public void A_change_of_direction_stands_at_stop_for_a_scan_between()
    {
        KernelBench bench = new KernelBench(new RigBuilder().Drives(RigBuilder.TwoWay)
            .Does(Steps.Arm(), Steps.SpinUp(0.5), Steps.Hold(), Steps.SpinUp(-0.5, ramp: 0), Steps.Hold(), Steps.CoastDown())).ToHold();
        List<double> levels = [];
        bench.OnScan = () => levels.Add(bench.Outputs.Throttle);
        bench.ScanUntil(() => bench.Outputs.Throttle < 0);
        Assert.Equal((0, -0.02), (levels[^2], levels[^1]));
    }

    [Trait("Requirement", "SAF-026")]
    [Theory]
    [InlineData(PulseDirection.Longer, 1000)]
    [InlineData(PulseDirection.Shorter, 2000)]
    public void A_trip_puts_out_the_controller_s_own_stop_pulse(PulseDirection direction, double stop)
    {
        KernelBench bench = Held(RigBuilder.OneWay with { Direction = direction, StopPulse = stop }, 0.6);
        Assert.Equal(stop, bench.Do(CommandKind.Stop).Outputs.Pulse);
    }

    [Trait("Requirement", "SAF-026")]
    [Fact]
    public void A_two_way_controller_is_never_stopped_with_its_shortest_pulse()
    {
        KernelBench bench = Held(RigBuilder.TwoWay, 0.6);
        Assert.Equal(1500, bench.Do(CommandKind.Stop).Outputs.Pulse);
    }
}

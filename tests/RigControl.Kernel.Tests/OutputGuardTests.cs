namespace RigControl.Kernel.Tests;

/// <summary>Each clause of the guard catches a mistake that some other code might make. The mistakes are planted here.</summary>
public class OutputGuardTests
{
    private readonly ScriptedInterlock _lid = new();

    private KernelBench Rig() => new(new RigBuilder().With("lid", _lid));

    private static bool Permits(KernelBench bench, KernelState state, OutputImage outputs) => OutputGuard.Permits(bench.Configuration, state, outputs);

    /// <summary>A hold as it should be, for one part to be spoilt.</summary>
    private (KernelBench Bench, KernelState State, OutputImage Outputs) Hold()
    {
        KernelBench bench = Rig().ToHold().Scan();
        Assert.True(Permits(bench, bench.State, bench.Outputs));
        return (bench, bench.State, bench.Outputs);
    }

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void What_the_scan_puts_out_is_permitted(RigState state)
    {
        KernelBench bench = Rig().To(state);
        Assert.True(Permits(bench, bench.State, bench.Outputs));
    }

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.CoastDown)]
    public void A_state_that_does_not_drive_may_not_drive(RigState wrong)
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        state.State = wrong;
        outputs.Switches = OutputSwitches.None;
        Assert.False(Permits(bench, state, outputs));
    }

    [Fact]
    public void A_pulse_beside_stop_is_driving_even_if_the_throttle_says_nothing()
    {
        KernelBench bench = Rig().ToCoastDown();
        Assert.False(Permits(bench, bench.State, bench.Outputs with { Pulse = 1000.1 }));
    }

    [Fact]
    public void A_throttle_is_driving_even_if_the_pulse_says_nothing()
    {
        KernelBench bench = Rig().ToCoastDown();
        Assert.False(Permits(bench, bench.State, bench.Outputs with { Throttle = 1e-9 }));
    }

    [Fact]
    public void Nothing_drives_without_a_start()
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        state.Flags &= ~StateFlags.Started;
        Assert.False(Permits(bench, state, outputs with { Switches = OutputSwitches.None }));
    }

    [Fact]
    public void Nothing_drives_or_has_power_with_a_cause_of_the_kernel_s_own()
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        state.Causes = TripCause.Deadline;
        Assert.False(Permits(bench, state, outputs with { Switches = OutputSwitches.None }));
        Assert.False(Permits(bench, state, new OutputImage { Pulse = 1000, Switches = OutputSwitches.Power }));
    }

    [Theory]
    [InlineData(DemandAction.CutPower)]
    [InlineData(DemandAction.StopOutput)]
    public void Nothing_drives_or_has_power_while_an_interlock_stops(DemandAction action)
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        state.Interlocks[0].Current.Action = action;
        Assert.False(Permits(bench, state, outputs with { Switches = OutputSwitches.None }));
        Assert.False(Permits(bench, state, new OutputImage { Pulse = 1000, Switches = OutputSwitches.Power }));
    }

    [Trait("Requirement", "SAF-020")]
    [Fact]
    public void Nothing_drives_while_a_latch_is_set()
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        state.Interlocks[0].IsLatched = true;
        Assert.False(Permits(bench, state, outputs with { Switches = OutputSwitches.None }));
    }

    [Theory]
    [InlineData(0.61, 1610)]
    [InlineData(1.1, 2000)]
    [InlineData(double.NaN, 1600)]
    public void A_hold_may_not_drift_from_its_level(double throttle, double pulse)
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        Assert.False(Permits(bench, state, outputs with { Throttle = throttle, Pulse = pulse }));
    }

    [Fact]
    public void A_rise_may_not_pass_its_level()
    {
        KernelBench bench = Rig().ToSpinUp();
        Assert.True(Permits(bench, bench.State, bench.Outputs with { Throttle = 0.6, Pulse = 1600 }));
        Assert.False(Permits(bench, bench.State, bench.Outputs with { Throttle = 0.61, Pulse = 1600 }));
    }

    [Theory]
    [InlineData(999.9)]
    [InlineData(2000.1)]
    [InlineData(1700)]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_pulse_past_the_controller_s_ends_or_past_what_the_throttle_says_is_caught(double pulse)
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        Assert.False(Permits(bench, state, outputs with { Pulse = pulse }));
    }

    [Fact]
    public void A_throttle_past_full_is_caught_even_where_a_level_says_so()
    {
        (KernelBench bench, KernelState state, OutputImage outputs) = Hold();
        state.RampFrom = 2;
        Assert.False(Permits(bench, state, outputs with { Throttle = 1.5 }));
        Assert.False(Permits(bench, state, outputs with { Throttle = -1.5 }));
    }

    [Fact]
    public void Idle_and_a_safe_stop_that_never_had_power_may_not_have_it()
    {
        KernelBench bench = Rig().ToIdle();
        OutputImage powered = new() { Pulse = 1000, Switches = OutputSwitches.Power };
        Assert.False(Permits(bench, bench.State, powered));
        KernelBench fresh = Rig().Scan();
        Assert.False(Permits(fresh, fresh.State, powered));
    }

    [Theory]
    [InlineData(TripCause.StopCommand)]
    [InlineData(TripCause.HostStop)]
    [InlineData(TripCause.LateScans)]
    [InlineData(TripCause.ClockStep)]
    [InlineData(TripCause.OutputGuard)]
    [InlineData((TripCause)0x8000)]
    public void A_safe_stop_keeps_no_power_for_a_cause_that_cuts_it_or_that_nobody_knows(TripCause cause)
    {
        KernelBench bench = Rig().ToHold();
        _lid.Action = DemandAction.StopOutput;
        bench.Scan();
        Assert.True(Permits(bench, bench.State, bench.Outputs));
        KernelState state = bench.State;
        state.Causes |= cause;
        Assert.False(Permits(bench, state, bench.Outputs));
    }

    [Fact]
    public void A_safe_stop_keeps_no_power_past_its_time_nor_against_a_power_cut()
    {
        KernelBench bench = Rig().ToHold();
        _lid.Action = DemandAction.StopOutput;
        bench.Scan();
        KernelState late = bench.State, latched = bench.State, current = bench.State;
        late.Now += TimeSpan.FromMilliseconds(200);
        latched.Interlocks[0].Latched.Action = DemandAction.CutPower;
        current.Interlocks[0].Current.Action = DemandAction.CutPower;
        Assert.False(Permits(bench, late, bench.Outputs));
        Assert.False(Permits(bench, latched, bench.Outputs));
        Assert.False(Permits(bench, current, bench.Outputs));
    }

    [Trait("Requirement", "SAF-021")]
    [Fact]
    public void A_lid_is_released_only_in_idle_at_standstill_without_power()
    {
        KernelBench bench = Rig().ToIdle();
        OutputImage released = new() { Pulse = 1000, Switches = OutputSwitches.Unlocked };
        Assert.True(Permits(bench, bench.State, released));
        KernelState turning = bench.State, stopped = bench.State;
        turning.Flags &= ~StateFlags.AtStandstill;
        stopped.State = RigState.SafeStop;
        Assert.False(Permits(bench, turning, released));
        Assert.False(Permits(bench, stopped, released));
        Assert.False(Permits(Rig().ToArming(), bench.State, released with { Switches = OutputSwitches.Unlocked | OutputSwitches.Power }));
    }

    [Trait("Requirement", "SAF-020")]
    [Fact]
    public void A_mistake_that_the_guard_catches_ends_in_safe_stop_with_stop_output_in_the_same_scan()
    {
        KernelBench bench = Rig().ToHold();
        bench.State.Throttle = 0.9;
        bench.Scan();
        Assert.Equal((RigState.SafeStop, TripCause.OutputGuard), (bench.Rig, bench.Record.NewCauses));
        Assert.Equal((0, 1000, OutputSwitches.None), (bench.Outputs.Throttle, bench.Outputs.Pulse, bench.Outputs.Switches));
    }

    [Fact]
    public void A_mistake_that_lasts_still_puts_out_stop_in_every_scan()
    {
        // Past the compiler's checks, so that the pulse for a throttle is never a number.
        RigBuilder rig = new RigBuilder().Drives(RigBuilder.OneWay with { MaximumPulse = double.PositiveInfinity });
        Configuration configuration = new(new ConfigurationParts(rig.Rig, rig.Article, rig.Procedure, [], [], new RigBuilder().Build().Steps));
        KernelState state = default;
        ScanRecord record = default;
        InputImage image = default;
        for (int i = 1; i <= 3; i++)
        {
            ScanKernel.Scan(configuration, ref state, new ScanInput(TimeSpan.FromMilliseconds(5 * i), image, []), ref record);
            Assert.Equal((1000, RigState.SafeStop, TripCause.OutputGuard), (record.Outputs.Pulse, record.State, record.Causes));
        }
    }

    [Fact]
    public void A_throttle_that_is_no_number_ends_in_safe_stop()
    {
        KernelBench bench = Rig().ToHold();
        bench.State.Throttle = double.NaN;
        bench.Scan().Scan();
        Assert.Equal((RigState.SafeStop, 0, 1000), (bench.Rig, bench.Outputs.Throttle, bench.Outputs.Pulse));
    }

    [Fact]
    public void A_state_that_was_spoilt_into_driving_without_a_start_is_stopped()
    {
        KernelBench bench = Rig().ToIdle();
        (bench.State.State, bench.State.Step, bench.State.StateSince) = (RigState.SpinUp, 1, bench.State.Now);
        bench.OnScan = () => Assert.Equal((0, 1000), (bench.Outputs.Throttle, bench.Outputs.Pulse));
        bench.ScanFor(3);
        Assert.Equal((RigState.SafeStop, TripCause.OutputGuard), (bench.Rig, bench.Record.Causes));
    }
}

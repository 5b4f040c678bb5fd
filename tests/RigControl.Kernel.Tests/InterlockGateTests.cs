namespace RigControl.Kernel.Tests;

/// <summary>Every interlock is asked, every scan, and what trips is kept.</summary>
public class InterlockGateTests
{
    private readonly ScriptedInterlock _lid = new();
    private readonly ScriptedInterlock _heat = new();
    private readonly ScriptedInterlock _speed = new();

    private KernelBench Rig() => new(new RigBuilder().With("lid", _lid).With("heat", _heat).With("speed", _speed, InterlockScope.NamedSteps));

    [Trait("Requirement", "SAF-019")]
    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void All_interlocks_are_asked_once_a_scan_in_every_state(RigState state)
    {
        KernelBench bench = Rig().To(state);
        long scans = bench.Record.Scan;
        Assert.Equal((scans, scans, scans), (_lid.Calls, _heat.Calls, _speed.Calls));
    }

    [Fact]
    public void An_objection_does_not_keep_the_others_from_being_asked()
    {
        KernelBench bench = Rig().ToHold();
        (_lid.Throws, _heat.Action, _speed.Action) = (true, DemandAction.StopOutput, DemandAction.StopOutput);
        bench.Scan();
        Assert.Equal(bench.Record.Scan, _speed.Calls);
        Assert.Equal(DemandAction.StopOutput, bench.Record.Demands[2].Action);
        Assert.Equal(0b011u, bench.Record.NewlyLatched);
    }

    [Fact]
    public void An_interlock_is_told_state_step_and_output()
    {
        KernelBench bench = Rig().ToHold();
        TimeSpan entered = bench.Record.Now;
        bench.Scan();
        Assert.Equal((bench.Record.Now, RigState.Hold, 2, bench.Record.Now - entered, 0.6), _lid.Asked);
    }

    [Theory]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void An_interlock_that_stops_trips_in_the_same_scan(RigState state)
    {
        foreach (DemandAction action in new[] { DemandAction.CutPower, DemandAction.StopOutput })
        {
            _lid.Action = DemandAction.Proceed;
            KernelBench bench = Rig().To(state);
            _lid.Action = action;
            bench.Scan();
            Assert.Equal((state, RigState.SafeStop, 1u, 0), (bench.Record.Before, bench.Rig, bench.Record.NewlyLatched, bench.Outputs.Throttle));
            Assert.Equal((TripCause.None, action != DemandAction.CutPower), (bench.Record.Causes, bench.Outputs.Power));
        }
    }

    [Theory]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void An_interlock_that_refuses_does_not_stop_what_runs(RigState state)
    {
        KernelBench bench = Rig().To(state);
        _lid.Action = DemandAction.Refuse;
        bench.Scan().Scan();
        Assert.Equal((state, 0u), (bench.Rig, bench.Record.Latched));
    }

    [Fact]
    public void An_open_lid_at_rest_in_idle_is_everyday()
    {
        KernelBench bench = Rig().ToIdle();
        _lid.Action = DemandAction.CutPower;
        bench.ScanFor(1);
        Assert.Equal((RigState.Idle, 0u), (bench.Rig, bench.Record.Latched));
    }

    [Theory]
    [InlineData(DemandAction.CutPower)]
    [InlineData(DemandAction.StopOutput)]
    public void A_lid_that_opens_in_idle_while_the_rotor_still_turns_trips(DemandAction action)
    {
        KernelBench bench = Rig().ToCoastDown().Read(ChannelNames.RotorSpeed, 45).ScanUntil(RigState.Idle);
        _lid.Action = action;
        bench.Scan();
        Assert.Equal((RigState.SafeStop, 1u), (bench.Rig, bench.Record.Latched));
    }

    [Fact]
    public void A_lid_that_opens_after_a_run_once_the_rotor_stands_is_everyday()
    {
        KernelBench bench = Rig().ToCoastDown().Read(ChannelNames.RotorSpeed, 0).ScanUntil(RigState.Idle).ToStandstill().Scan();
        _lid.Action = DemandAction.CutPower;
        bench.ScanFor(1).Read(ChannelNames.RotorSpeed, 100).ScanFor(1);
        Assert.Equal(RigState.Idle, bench.Rig);
    }

    [Trait("Requirement", "SAF-019")]
    [Fact]
    public void An_interlock_that_throws_cuts_the_power_and_says_that_it_threw()
    {
        KernelBench bench = Rig().ToHold();
        _heat.Throws = true;
        bench.Scan();
        Demand latched = bench.State.Interlocks[1].Latched;
        Assert.Equal((DemandAction.CutPower, InterlockGate.Threw), (latched.Action, latched.Reason));
        Assert.Equal((RigState.SafeStop, 0b010u, false), (bench.Rig, bench.Record.Latched, bench.Outputs.Power));
    }

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    public void An_interlock_that_throws_is_broken_wherever_the_rig_is(RigState state)
    {
        KernelBench bench = Rig().To(state);
        _speed.Throws = true;
        bench.Scan();
        Assert.Equal((RigState.SafeStop, 0b100u), (bench.Rig, bench.Record.Latched));
        Assert.Equal(RefusalReason.CauseStands, bench.Give(CommandKind.Reset));
    }

    [Fact]
    public void An_action_that_does_not_exist_is_no_permission()
    {
        KernelBench bench = Rig().ToHold();
        _heat.Action = (DemandAction)77;
        bench.Scan();
        Assert.Equal((RigState.SafeStop, DemandAction.CutPower, false), (bench.Rig, bench.Record.Demands[1].Action, bench.Outputs.Power));
    }

    [Fact]
    public void A_latch_keeps_the_demand_that_was_the_cause()
    {
        KernelBench bench = Rig().ToHold();
        (_heat.Action, _heat.Value, _heat.Reason) = (DemandAction.StopOutput, 81.3, 7);
        bench.Scan();
        (_heat.Action, _heat.Value, _heat.Reason) = (DemandAction.CutPower, 99, 8);
        bench.ScanFor(1);
        Demand latched = bench.State.Interlocks[1].Latched;
        Assert.Equal((DemandAction.StopOutput, 81.3, 7), (latched.Action, latched.Value, latched.Reason));
    }

    [Fact]
    public void A_stronger_demand_of_the_same_interlock_still_cuts_the_power()
    {
        KernelBench bench = Rig().ToHold();
        _heat.Action = DemandAction.StopOutput;
        Assert.True(bench.Scan().Outputs.Power);
        _heat.Action = DemandAction.CutPower;
        Assert.False(bench.Scan().Outputs.Power);
        _heat.Action = DemandAction.StopOutput;
        Assert.False(bench.Scan().Outputs.Power);
    }

    [Fact]
    public void A_further_cause_is_latched_in_safe_stop_while_the_rotor_turns()
    {
        KernelBench bench = Rig().ToHold();
        _heat.Action = DemandAction.StopOutput;
        bench.ScanFor(0.1);
        _lid.Action = DemandAction.CutPower;
        bench.Scan();
        Assert.Equal((0b001u, 0b011u, false), (bench.Record.NewlyLatched, bench.Record.Latched, bench.Outputs.Power));
    }

    [Fact]
    public void A_lid_opened_while_the_power_is_still_on_cuts_it_although_the_rotor_reads_as_standing()
    {
        KernelBench bench = Rig().ToArming().Scan();
        _heat.Action = DemandAction.StopOutput;
        Assert.Equal((true, false), (bench.Scan().Scan().Outputs.Power, bench.Record.AtStandstill));
        _lid.Action = DemandAction.CutPower;
        bench.Scan();
        Assert.Equal((0b001u, false), (bench.Record.NewlyLatched, bench.Outputs.Power));
    }

    [Fact]
    public void A_lid_opened_in_safe_stop_at_standstill_is_no_further_cause()
    {
        KernelBench bench = Rig().ToHold();
        _heat.Action = DemandAction.StopOutput;
        bench.Scan().Read(ChannelNames.RotorSpeed, 0).ToStandstill().ScanFor(1);
        _lid.Action = DemandAction.CutPower;
        bench.ScanFor(1);
        Assert.Equal(0b010u, bench.Record.Latched);
    }

    [Fact]
    public void A_stop_without_power_cut_is_no_further_cause_in_safe_stop()
    {
        KernelBench bench = Rig().ToHold().Do(CommandKind.Stop);
        _heat.Action = DemandAction.StopOutput;
        bench.ScanFor(1);
        Assert.Equal(0u, bench.Record.Latched);
    }
}

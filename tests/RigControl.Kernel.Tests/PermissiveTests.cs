namespace RigControl.Kernel.Tests;

/// <summary>What is asked at the entry of a step, and what counts only in steps that name it.</summary>
public class PermissiveTests
{
    private readonly ScriptedInterlock _heat = new();
    private readonly ScriptedInterlock _speed = new();

    private KernelBench Rig(params Step[] steps) =>
        new(new RigBuilder().Does(steps).With("heat", _heat).With("speed", _speed, InterlockScope.NamedSteps));

    private static Step Naming(Step step) => step with { Interlocks = ["speed"] };

    private static Step Asking(Step step) => step with { Permissives = ["speed"] };

    [Fact]
    public void An_interlock_of_named_steps_does_not_stop_a_step_that_does_not_name_it()
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(), Steps.Hold(), Steps.CoastDown()).ToSpinUp();
        _speed.Action = DemandAction.CutPower;
        bench.ScanUntil(RigState.CoastDown);
        Assert.Equal(0u, bench.Record.Latched);
    }

    [Fact]
    public void An_interlock_of_named_steps_stops_the_step_that_names_it()
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(), Naming(Steps.Hold()), Steps.CoastDown()).ToHold();
        _speed.Action = DemandAction.StopOutput;
        Assert.Equal((RigState.SafeStop, 0b10u), (bench.Scan().Rig, bench.Record.Latched));
    }

    [Fact]
    public void An_interlock_of_named_steps_that_objects_is_latched_at_the_entry_of_the_step()
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(), Naming(Steps.Hold()), Steps.CoastDown()).ToSpinUp();
        _speed.Action = DemandAction.CutPower;
        bench.OnScan = () => Assert.NotEqual(RigState.Hold, bench.Rig);
        bench.ScanUntil(RigState.SafeStop);
        Assert.Equal((0b10u, TripCause.None), (bench.Record.NewlyLatched, bench.Record.Causes));
        Assert.False(bench.Outputs.Power);
    }

    [Fact]
    public void A_permissive_is_asked_at_the_entry_and_not_afterwards()
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(), Asking(Steps.Hold()), Steps.CoastDown()).ToHold();
        _speed.Action = DemandAction.CutPower;
        bench.ScanUntil(RigState.CoastDown);
        Assert.Equal(0u, bench.Record.Latched);
    }

    [Theory]
    [InlineData(StepKind.Hold, DemandAction.StopOutput)]
    [InlineData(StepKind.CoastDown, DemandAction.StopOutput)]
    [InlineData(StepKind.SpinUp, DemandAction.Refuse)]
    public void A_permissive_that_objects_stops_instead_of_entering_the_step(StepKind kind, DemandAction action)
    {
        Step[] steps = [Steps.Arm(), Steps.SpinUp(), Steps.Hold(), Steps.SpinUp(0.8), Steps.CoastDown()];
        steps = [.. steps.Select((s, i) => i > 1 && s.Kind == kind ? Asking(s) : s)];
        KernelBench bench = Rig(steps).ToSpinUp();
        _speed.Action = action;
        bench.ScanUntil(RigState.SafeStop);
        Assert.Equal((TripCause.Permissive, 0, true), (bench.Record.NewCauses, bench.Outputs.Throttle, bench.Outputs.Power));
    }

    [Theory]
    [InlineData(StepKind.Hold)]
    [InlineData(StepKind.CoastDown)]
    public void A_refusal_does_not_keep_what_runs_from_being_held_or_let_go(StepKind kind)
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(), Asking(Steps.Hold()), Asking(Steps.CoastDown())).ToSpinUp();
        (_speed.Action, _heat.Action) = (DemandAction.Refuse, DemandAction.Refuse);
        bench.ScanUntil(kind == StepKind.Hold ? RigState.Hold : RigState.CoastDown);
        Assert.Equal(TripCause.None, bench.Record.Causes);
    }

    [Fact]
    public void A_refusal_keeps_the_output_from_rising_further()
    {
        KernelBench bench = Rig(Steps.Arm(), Steps.SpinUp(0.3), Steps.Hold(), Steps.SpinUp(0.8), Steps.CoastDown()).ToHold();
        _heat.Action = DemandAction.Refuse;
        bench.OnScan = () => Assert.True(bench.Outputs.Throttle <= 0.3);
        bench.ScanUntil(RigState.SafeStop);
        Assert.Equal(TripCause.Permissive, bench.Record.NewCauses);
    }

    [Fact]
    public void What_the_procedure_requires_counts_from_the_rise_to_the_end_of_the_coast_down()
    {
        foreach (RigState state in new[] { RigState.SpinUp, RigState.Hold, RigState.CoastDown })
        {
            ScriptedInterlock speed = new();
            RigBuilder rig = new RigBuilder().With("speed", speed, InterlockScope.NamedSteps);
            rig.Procedure = rig.Procedure with { Requires = ["speed"] };
            KernelBench bench = new KernelBench(rig).To(state);
            speed.Action = DemandAction.StopOutput;
            Assert.Equal((RigState.SafeStop, 1u), (bench.Scan().Rig, bench.Record.Latched));
        }
    }
}

namespace RigControl.Kernel.Tests;

/// <summary>Nothing energised lasts for ever.</summary>
public class DeadlineTests
{
    private readonly ScriptedInterlock _lid = new();

    private static void TripsAfter(KernelBench bench, double seconds)
    {
        TimeSpan since = bench.Record.Now;
        bench.ScanUntil(RigState.SafeStop);
        Assert.Equal(TripCause.Deadline, bench.Record.NewCauses);
        Assert.Equal(seconds + 0.005, (bench.Record.Now - since).TotalSeconds, 9);
    }

    [Trait("Requirement", "SAF-009")]
    [Fact]
    public void Preparing_trips_when_the_arm_step_s_time_is_over()
    {
        KernelBench bench = new KernelBench(new RigBuilder().With("lid", _lid)).ToArming();
        _lid.Action = DemandAction.Refuse;
        TripsAfter(bench, 10);
    }

    [Trait("Requirement", "SAF-009")]
    [Fact]
    public void A_start_that_never_comes_trips_after_a_minute() => TripsAfter(new KernelBench().ToAwaitingStart(), 60);

    [Trait("Requirement", "SAF-009")]
    [Fact]
    public void A_spin_up_that_never_meets_its_condition_trips()
    {
        RigBuilder rig = new RigBuilder().Does(Steps.Arm(), Steps.SpinUp(0.6, 0.5, 4, Steps.Above(ChannelNames.RotorSpeed, 9000)), Steps.CoastDown());
        TripsAfter(new KernelBench(rig).ToWarning().ScanUntil(RigState.SpinUp), 4);
    }

    [Trait("Requirement", "SAF-009")]
    [Fact]
    public void A_hold_that_never_meets_its_condition_trips()
    {
        Step hold = Steps.Hold() with { For = null, Until = [Steps.Above(ChannelNames.RotorSpeed, 9000)], Timeout = Steps.Seconds(2) };
        TripsAfter(new KernelBench(new RigBuilder().Does(Steps.Arm(), Steps.SpinUp(), hold, Steps.CoastDown())).ToHold(), 2);
    }

    [Trait("Requirement", "SAF-009")]
    [Fact]
    public void A_rotor_that_never_runs_down_trips() => TripsAfter(new KernelBench().ToCoastDown(), 5);

    [Fact]
    public void A_rest_that_never_meets_its_condition_trips()
    {
        Step rest = Steps.Rest() with { For = null, Until = [Steps.Above(ChannelNames.MotorTemperature, 40)], Timeout = Steps.Seconds(3) };
        TripsAfter(new KernelBench(new RigBuilder().Does(rest, Steps.Arm(), Steps.SpinUp(), Steps.CoastDown())).ToIdle(), 3);
    }

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    public void Where_nothing_is_energised_the_operator_has_all_the_time_there_is(RigState state)
    {
        KernelBench bench = new KernelBench().To(state).ScanFor(600);
        Assert.Equal((state, TripCause.None), (bench.Rig, bench.Record.Causes));
    }
}


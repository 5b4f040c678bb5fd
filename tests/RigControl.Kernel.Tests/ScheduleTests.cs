namespace RigControl.Kernel.Tests;

/// <summary>Scans that come late, a clock that leaps, a clock that goes back.</summary>
public class ScheduleTests
{
    private static KernelBench Late(KernelBench bench, double milliseconds)
    {
        bench.Now += TimeSpan.FromMilliseconds(milliseconds);
        return bench.Scan();
    }

    [Trait("Requirement", "SAF-023")]
    [Theory]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    public void Three_late_scans_in_a_row_trip_what_is_energised(RigState state)
    {
        KernelBench bench = new KernelBench().To(state);
        Late(Late(bench, 2.6), 2.6);
        Assert.Equal(state, bench.Rig);
        Late(bench, 2.6);
        Assert.Equal((RigState.SafeStop, TripCause.LateScans), (bench.Rig, bench.Record.Causes));
        Assert.Equal((0, OutputSwitches.None), (bench.Outputs.Throttle, bench.Outputs.Switches));
    }

    [Fact]
    public void A_scan_in_time_between_late_ones_begins_the_count_again()
    {
        KernelBench bench = new KernelBench().ToCoastDown();
        for (int i = 0; i < 10; i++)
            Late(Late(bench, 2.6), 2.6).Scan();
        Assert.Equal(RigState.CoastDown, bench.Rig);
    }

    [Fact]
    public void One_and_a_half_periods_are_not_late_yet()
    {
        KernelBench bench = new KernelBench().ToCoastDown();
        for (int i = 0; i < 10; i++)
            Late(bench, 2.5);
        Assert.Equal((RigState.CoastDown, 0), (bench.Rig, bench.State.LateScans));
    }

    [Theory]
    [InlineData(45, RigState.Hold)]
    [InlineData(45.1, RigState.SafeStop)]
    public void A_gap_of_more_than_ten_periods_trips_at_once(double milliseconds, RigState then) =>
        Assert.Equal(then, Late(new KernelBench().ToHold(), milliseconds).Rig);

    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    public void Late_scans_where_nothing_is_energised_are_no_trip(RigState state)
    {
        KernelBench bench = new KernelBench().To(state);
        for (int i = 0; i < 5; i++)
            Late(bench, 20);
        Assert.Equal((state, TripCause.None), (Late(bench, 1000).Rig, bench.Record.Causes));
    }

    [Trait("Requirement", "SAF-023")]
    [Theory]
    [InlineData(RigState.SafeStop, 5.0)]
    [InlineData(RigState.Idle, 5.0)]
    [InlineData(RigState.Arming, 5.0)]
    [InlineData(RigState.SpinUp, 5.0)]
    [InlineData(RigState.Hold, 1000.0)]
    [InlineData(RigState.CoastDown, 5.0)]
    public void A_clock_that_stands_or_goes_back_trips_in_every_state(RigState state, double back)
    {
        KernelBench bench = Late(new KernelBench().To(state), -back);
        Assert.Equal((RigState.SafeStop, TripCause.ClockStep), (bench.Rig, bench.Record.Causes));
        Assert.Equal(OutputSwitches.None, bench.Outputs.Switches);
    }

    [Fact]
    public void A_rig_whose_clock_went_back_can_be_reset_and_runs_again()
    {
        KernelBench bench = Late(new KernelBench().ToHold(), -1500).Read(ChannelNames.RotorSpeed, 0);
        bench.ToIdle().Do(CommandKind.Arm).ScanUntil(() => bench.Record.Phase == ArmingPhase.AwaitingStart).Do(CommandKind.Start).ScanUntil(RigState.Hold);
    }

    [Trait("Requirement", "SAF-002")]
    [Fact]
    public void A_reset_in_the_very_scan_in_which_the_clock_goes_back_once_more_is_refused()
    {
        KernelBench bench = Late(new KernelBench().To(RigState.Idle), -20).ScanFor(1);
        Assert.Equal(TripCause.ClockStep, bench.Record.Causes);
        bench.Now -= TimeSpan.FromMilliseconds(20);
        Assert.Equal(RefusalReason.CauseStands, bench.Give(CommandKind.Reset));
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Fact]
    public void The_first_scan_is_never_late() =>
        Assert.Equal(TripCause.None, new KernelBench { Now = TimeSpan.FromDays(30) }.Scan().Record.Causes);

    [Fact]
    public void A_leap_does_not_shorten_the_proof_of_standstill()
    {
        KernelBench bench = new KernelBench().Read(ChannelNames.RotorSpeed, 0).Scan().Scan();
        Late(bench, 1000);
        Assert.False(bench.Record.AtStandstill);
        bench.ScanFor(0.1);
        Assert.True(bench.Record.AtStandstill);
    }

    [Theory]
    [InlineData(60_000)]
    [InlineData(-900)]
    public void A_leap_does_not_bring_a_rotor_without_a_speed_reading_to_a_stand(double milliseconds)
    {
        KernelBench bench = new KernelBench(new RigBuilder().Without(ChannelNames.RotorSpeed).Does(Steps.Rest())).ScanFor(1);
        Late(bench, milliseconds);
        bench.ScanFor(0.9);
        Assert.False(bench.Record.AtStandstill);
        bench.ScanFor(0.15);
        Assert.True(bench.Record.AtStandstill);
    }
}

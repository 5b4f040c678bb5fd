namespace RigControl.Kernel.Tests;

/// <summary>What the rig is before anybody has done anything.</summary>
public class StartUpTests
{
    [Trait("Requirement", "SAF-001")]
    [Fact]
    public void A_rig_starts_in_safe_stop_with_everything_off()
    {
        KernelBench bench = new();
        bench.Scan();
        Assert.Equal(RigState.SafeStop, bench.Rig);
        Assert.Equal((0, 1000), (bench.Outputs.Throttle, bench.Outputs.Pulse));
        Assert.Equal(OutputSwitches.None, bench.Outputs.Switches);
    }

    [Fact]
    public void A_rig_that_nobody_resets_stays_in_safe_stop()
    {
        KernelBench bench = new();
        bench.OnScan = () => Assert.Equal(RigState.SafeStop, bench.Rig);
        bench.ScanFor(30);
        Assert.True(bench.Record.AtStandstill);
    }

    [Fact]
    public void A_rotor_that_turns_at_start_up_keeps_the_rig_in_safe_stop()
    {
        KernelBench bench = new KernelBench().Read(ChannelNames.RotorSpeed, 500).ScanFor(5);
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Reset));
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Fact]
    public void A_rotor_without_a_speed_reading_counts_as_turning_for_its_longest_coast_down()
    {
        KernelBench bench = new(new RigBuilder().Without(ChannelNames.RotorSpeed).Does(Steps.Rest()));
        bench.ScanFor(1.9);
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Reset));
        bench.ScanFor(0.1);
        Assert.Equal(RefusalReason.None, bench.Give(CommandKind.Reset));
    }

    [Fact]
    public void A_rig_whose_clock_does_not_start_at_zero_waits_as_long()
    {
        KernelBench bench = new(new RigBuilder().Without(ChannelNames.RotorSpeed).Does(Steps.Rest())) { Now = TimeSpan.FromHours(5) };
        bench.ScanFor(1.9);
        Assert.False(bench.Record.AtStandstill);
        Assert.Equal(TripCause.None, bench.Record.Causes);
    }

    [Fact]
    public void A_mark_in_the_very_first_scan_shows_for_its_time_whatever_the_clock_says()
    {
        KernelBench bench = new() { Now = TimeSpan.FromHours(5) };
        bench.Do(CommandKind.Mark).ScanFor(0.09);
        Assert.True(bench.Outputs.Marker);
        bench.ScanFor(0.01);
        Assert.False(bench.Outputs.Marker);
    }
}

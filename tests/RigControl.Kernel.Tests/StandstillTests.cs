namespace RigControl.Kernel.Tests;

/// <summary>When a rotor counts as standing.</summary>
public class StandstillTests
{
    private static KernelBench Turning() => new KernelBench().Read(ChannelNames.RotorSpeed, 500).ScanFor(1);

    [Fact]
    public void A_rotor_stands_once_its_speed_has_been_low_for_the_time_asked()
    {
        KernelBench bench = Turning().Read(ChannelNames.RotorSpeed, 29);
        bench.ScanFor(0.1);
        Assert.False(bench.Record.AtStandstill);
        Assert.True(bench.Scan().Record.AtStandstill);
    }

    [Theory]
    [InlineData(30)]
    [InlineData(-30)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void A_speed_at_the_limit_backwards_or_not_a_number_is_no_standstill(double speed) =>
        Assert.False(Turning().Read(ChannelNames.RotorSpeed, speed).ScanFor(5).Record.AtStandstill);

    [Fact]
    public void A_spike_between_two_scans_begins_the_proof_again()
    {
        KernelBench bench = Turning().Read(ChannelNames.RotorSpeed, 0).ScanFor(0.095);
        bench.Image[bench.Place(ChannelNames.RotorSpeed)].Maximum = 400;
        bench.Scan().Read(ChannelNames.RotorSpeed, 0).ScanFor(0.1);
        Assert.False(bench.Record.AtStandstill);
        Assert.True(bench.Scan().Record.AtStandstill);
    }

    [Fact]
    public void A_bad_reading_is_no_standstill_however_low_it_says()
    {
        KernelBench bench = Turning().Read(ChannelNames.RotorSpeed, 0).Lose(ChannelNames.RotorSpeed).ScanFor(60);
        Assert.False(bench.Record.AtStandstill);
    }

    // A tachometer with one mark says nothing before the rotor has turned once: it reads as standing while it gains speed.
    [Trait("Requirement", "SAF-002")]
    [Fact]
    public void A_rotor_that_was_driven_for_a_moment_is_no_standstill_before_its_time_although_it_reads_as_standing()
    {
        ScriptedInterlock lid = new();
        KernelBench bench = new KernelBench(new RigBuilder().With("lid", lid)).ToWarning();
        bench.ScanUntil(() => bench.Outputs.Throttle > 0);
        lid.Action = DemandAction.CutPower;
        TimeSpan tripped = bench.Scan().Record.Now;
        lid.Action = DemandAction.Proceed;
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Reset));
        bench.ScanUntil(() => bench.Record.AtStandstill);
        Assert.Equal(0.1 - 0.005, (bench.Record.Now - tripped).TotalSeconds, 9);
    }

    [Fact]
    public void Under_power_nothing_is_at_standstill_since_a_controller_may_do_what_it_likes()
    {
        KernelBench bench = new KernelBench().ToArming().ScanFor(0.5);
        Assert.False(bench.Record.AtStandstill);
    }

    [Fact]
    public void Without_a_speed_reading_the_longest_coast_down_begins_when_the_power_goes()
    {
        RigBuilder rig = new RigBuilder().Without(ChannelNames.RotorSpeed).Does(Steps.Arm(), Steps.SpinUp(), Steps.CoastDown() with { Until = [], For = Steps.Seconds(1) });
        KernelBench bench = new KernelBench(rig).ToWarning().ScanUntil(RigState.Idle);
        TimeSpan off = bench.Record.Now;
        bench.ScanUntil(() => bench.Record.AtStandstill);
        Assert.Equal(2 - 0.005, (bench.Record.Now - off).TotalSeconds, 9);
    }
}

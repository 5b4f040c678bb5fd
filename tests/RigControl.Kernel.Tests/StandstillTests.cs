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
    public void A_rotor_that_was_driven_and_never_seen_to_turn_stands_once_it_must_have_run_down_and_somebody_looked()
    {
        KernelBench bench = Lost(seen: 0);
        TimeSpan off = bench.Record.Now;
        Assert.Equal(RefusalReason.NotRunDown, bench.Give(CommandKind.Look));
        bench.ScanUntil(() => bench.Record.AwaitsLook);
        Assert.Equal(2, (bench.Record.Now - off).TotalSeconds, 0.021);
        Assert.Equal(RefusalReason.NotAtStandstill, bench.ScanFor(10).Give(CommandKind.Reset));
        Assert.True(bench.Do(CommandKind.Look).Scan().Record.AtStandstill);
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Look));
        Assert.Equal(RigState.Idle, bench.Do(CommandKind.Reset).Rig);
    }

    // A lead that comes off reads as a rotor that stands.
    [Trait("Requirement", "SAF-086")]
    [Theory]
    [InlineData(121, false)]
    [InlineData(120, true)]
    [InlineData(-120, true)]
    [InlineData(9000, false)]
    public void A_reading_that_falls_to_nothing_at_once_proves_nothing(double last, bool stands)
    {
        KernelBench bench = Lost(last).ScanFor(30);
        Assert.Equal((stands, !stands), (bench.Record.AtStandstill, bench.Record.AwaitsLook));
    }

    [Trait("Requirement", "SAF-086")]
    [Fact]
    public void Pulses_of_a_lead_that_flaps_do_not_bring_a_lost_rotor_back_into_sight()
    {
        KernelBench bench = Lost(9000).Read(ChannelNames.RotorSpeed, 60).ScanFor(1).Read(ChannelNames.RotorSpeed, 0).ScanFor(30);
        Assert.Equal((false, true), (bench.Record.AtStandstill, bench.Record.AwaitsLook));
    }

    [Trait("Requirement", "SAF-086")]
    [Fact]
    public void A_look_is_void_as_soon_as_something_is_energised()
    {
        KernelBench bench = Lost(9000).ScanFor(3).Do(CommandKind.Look).Lose(ChannelNames.RotorSpeed).Scan();
        Assert.True(bench.Record.AtStandstill);
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Do(CommandKind.Reset).Give(CommandKind.Arm));
        bench.Read(ChannelNames.RotorSpeed, 0).Scan().Do(CommandKind.Arm).Scan().Do(CommandKind.Stop).Scan();
        Assert.Equal((false, false), (bench.Record.AtStandstill, (bench.State.Flags & StateFlags.Looked) != 0));
    }

    // Who looks stands near.
    [Trait("Requirement", "SAF-086")]
    [Fact]
    public void Behind_a_look_no_repeat_goes_on_by_itself()
    {
        RigBuilder rig = Mounted(new RigBuilder().Does(Steps.Arm(60), Steps.SpinUp(), Steps.CoastDown() with { Until = [], For = Steps.Seconds(0.2) }));
        rig.Procedure = rig.Procedure with { Repeat = 2 };
        KernelBench bench = new KernelBench(rig).ToWarning().ScanUntil(RigState.Idle);
        bench.ScanUntil(() => bench.Record.AwaitsLook);
        bench.Do(CommandKind.Look).ScanFor(120);
        Assert.Equal((RigState.Idle, true), (bench.Rig, bench.Record.AtStandstill));
        Assert.Equal(RigState.Arming, bench.Do(CommandKind.Arm).Rig);
        Assert.Equal(ArmingPhase.AwaitingStart, bench.ScanFor(1).Record.Phase);
    }

    [Trait("Requirement", "SAF-086")]
    [Fact]
    public void A_rotor_that_is_seen_to_turn_is_not_looked_to_a_stand()
    {
        KernelBench bench = Lost(9000).ScanFor(3).Do(CommandKind.Look).Read(ChannelNames.RotorSpeed, 31).Scan();
        Assert.False(bench.Record.AtStandstill);
        Assert.Equal(RefusalReason.NotRunDown, bench.ScanFor(5).Give(CommandKind.Look));
    }

    [Trait("Requirement", "SAF-086")]
    [Theory]
    [InlineData(CommandSource.Network)]
    [InlineData(CommandSource.Host)]
    public void Only_somebody_at_the_bench_can_have_looked(CommandSource source)
    {
        KernelBench bench = Lost(9000).ScanFor(3);
        Assert.Equal(RefusalReason.NotFromHere, bench.Give(CommandKind.Look, source));
        Assert.False(bench.ScanFor(1).Record.AtStandstill);
    }

    // The contactor's own contact says when the power went; where it says nothing, the time does not begin.
    [Trait("Requirement", "SAF-086")]
    [Theory]
    [InlineData(1.0)]
    [InlineData(double.NaN)]
    [InlineData(null)]
    public void The_longest_coast_down_begins_when_the_power_is_read_as_gone(double? reading)
    {
        KernelBench bench = Lost(9000, ChannelNames.OutputPower);
        if (reading is { } power)
            bench.Read(ChannelNames.OutputPower, power);
        else
            bench.Lose(ChannelNames.OutputPower);
        Assert.False(bench.ScanFor(10).Record.AwaitsLook);
        TimeSpan gone = bench.Read(ChannelNames.OutputPower, 0).Record.Now;
        bench.ScanUntil(() => bench.Record.AwaitsLook);
        Assert.Equal(2, (bench.Record.Now - gone).TotalSeconds, 0.011);
    }

    [Fact]
    public void Where_nothing_is_mounted_the_time_alone_is_enough()
    {
        KernelBench bench = Lost(9000, rotor: false).ScanFor(1.9);
        Assert.False(bench.Record.AtStandstill);
        Assert.True(bench.ScanFor(0.2).Record.AtStandstill);
    }

    [Trait("Requirement", "SAF-086")]
    [Fact]
    public void A_rotor_whose_speed_nobody_reads_has_to_be_looked_at_from_the_start_of_the_host()
    {
        RigBuilder rig = Mounted(new RigBuilder().Without(ChannelNames.RotorSpeed).Does(Steps.Rest()));
        KernelBench bench = new KernelBench(rig).ScanFor(1.9);
        Assert.False(bench.Record.AwaitsLook);
        bench.ScanFor(60);
        Assert.Equal((false, true), (bench.Record.AtStandstill, bench.Record.AwaitsLook));
        Assert.True(bench.Do(CommandKind.Look).Scan().Record.AtStandstill);
    }

    // A shorted controller spins it up as soon as there is power; a tachometer that had lost its mark before then says nothing of it.
    [Trait("Requirement", "SAF-086")]
    [Fact]
    public void What_an_interlock_stopped_under_power_before_anything_was_to_turn_is_looked_at()
    {
        KernelBench bench = Armed(out ScriptedInterlock current);
        current.Action = DemandAction.CutPower;
        bench.Scan();
        current.Action = DemandAction.Proceed;
        bench.ScanFor(1.9);
        Assert.Equal((RigState.SafeStop, false, false), (bench.Rig, bench.Record.AtStandstill, bench.Record.AwaitsLook));
        bench.ScanFor(0.2);
        Assert.Equal((false, true), (bench.Record.AtStandstill, bench.Record.AwaitsLook));
    }

    [Trait("Requirement", "SAF-086")]
    [Theory]
    [InlineData(0)]
    [InlineData(500)]
    public void What_a_person_stopped_under_power_before_anything_was_to_turn_is_looked_at_too_whatever_was_read(double seen)
    {
        KernelBench bench = Armed(out _).Read(ChannelNames.RotorSpeed, seen).Scan().Do(CommandKind.Stop).Read(ChannelNames.RotorSpeed, 0).ScanFor(1.9);
        Assert.Equal((RigState.SafeStop, false, false), (bench.Rig, bench.Record.AtStandstill, bench.Record.AwaitsLook));
        bench.ScanFor(0.2);
        Assert.Equal((false, true), (bench.Record.AtStandstill, bench.Record.AwaitsLook));
    }

    [Fact]
    public void What_was_driven_and_is_seen_to_run_down_need_not_be_looked_at()
    {
        KernelBench bench = new KernelBench(Mounted(new RigBuilder())).ToWarning();
        bench.ScanUntil(() => bench.Outputs.Throttle > 0).Read(ChannelNames.RotorSpeed, 500).Scan().Do(CommandKind.Stop);
        bench.ScanFor(0.1).Read(ChannelNames.RotorSpeed, 100).Scan();
        Assert.True(bench.Read(ChannelNames.RotorSpeed, 0).ScanFor(0.2).Record.AtStandstill);
    }

    // A host that was killed over a turning rotor comes back to a tachometer that may have lost its mark.
    [Trait("Requirement", "SAF-089")]
    [Theory]
    [InlineData(0.0)]
    [InlineData(double.NaN)]
    [InlineData(null)]
    public void A_reading_of_nothing_at_the_start_proves_nothing_where_nobody_knows_how_the_rotor_was_left(double? known)
    {
        KernelBench bench = LeftAs(known).ScanFor(1.9);
        Assert.Equal((false, false), (bench.Record.AtStandstill, bench.Record.AwaitsLook));
        bench.ScanFor(60);
        Assert.Equal((false, true), (bench.Record.AtStandstill, bench.Record.AwaitsLook));
        Assert.Equal(RefusalReason.NotAtStandstill, bench.Give(CommandKind.Reset));
        Assert.Equal(RigState.Idle, bench.Do(CommandKind.Look).Scan().Do(CommandKind.Reset).Rig);
    }

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void What_was_left_at_rest_stands_as_soon_as_it_reads_so() => Assert.True(LeftAs(1).ScanFor(0.2).Record.AtStandstill);

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void Who_has_looked_is_not_asked_again_about_how_it_was_left()
    {
        KernelBench bench = LeftAs(0).ScanFor(3).Do(CommandKind.Look).Scan().Do(CommandKind.Reset).ScanFor(60);
        Assert.Equal((RigState.Idle, true, false), (bench.Rig, bench.Record.AtStandstill, bench.Record.AwaitsLook));
    }

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void Where_it_is_seen_to_turn_after_a_look_the_look_and_what_followed_from_it_are_over()
    {
        KernelBench bench = LeftAs(0).ScanFor(3).Do(CommandKind.Look).Scan().Read(ChannelNames.RotorSpeed, 100).Scan();
        Assert.False(bench.Read(ChannelNames.RotorSpeed, 0).ScanFor(1).Record.AtStandstill);
    }

    // What the session itself has seen of its rotor counts more than what was known before it.
    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void Once_it_was_driven_and_followed_down_nobody_asks_any_more_how_it_was_left()
    {
        KernelBench bench = LeftAs(0).ScanFor(3).Do(CommandKind.Look).ToWarning();
        bench.ScanUntil(() => bench.Outputs.Throttle > 0).Read(ChannelNames.RotorSpeed, 100).Scan().Do(CommandKind.Stop).Scan();
        Assert.True(bench.Read(ChannelNames.RotorSpeed, 0).ScanFor(0.2).Record.AtStandstill);
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

    private static KernelBench LeftAs(double? known)
    {
        KernelBench bench = new KernelBench(Mounted(new RigBuilder().Reads(ChannelNames.LeftAtRest))).Read(ChannelNames.RotorSpeed, 0);
        return known is { } reading ? bench.Read(ChannelNames.LeftAtRest, reading) : bench.Lose(ChannelNames.LeftAtRest);
    }

    // Armed and waiting for the start, with the power on and the output at stop.
    private static KernelBench Armed(out ScriptedInterlock current)
    {
        current = new ScriptedInterlock();
        KernelBench bench = new KernelBench(Mounted(new RigBuilder().With("current", current))).ToArming();
        bench.ScanUntil(() => bench.Record.Phase == ArmingPhase.AwaitingStart);
        return bench;
    }

    private static RigBuilder Mounted(RigBuilder rig)
    {
        rig.Article = rig.Article with { Rotor = new Rotor(1e-4, 0.05, 0.2, 10_000) };
        return rig;
    }

    // Driven, seen at a speed while it was, then stopped, and from one reading to the next at nothing.
    private static KernelBench Lost(double seen, string? also = null, bool rotor = true)
    {
        RigBuilder rig = also is null ? new RigBuilder() : new RigBuilder().Reads(also);
        KernelBench bench = new KernelBench(rotor ? Mounted(rig) : rig).ToWarning();
        bench.ScanUntil(() => bench.Outputs.Throttle > 0).Read(ChannelNames.RotorSpeed, seen).Scan().Do(CommandKind.Stop);
        return bench.Scan().Read(ChannelNames.RotorSpeed, 0).Scan();
    }
}

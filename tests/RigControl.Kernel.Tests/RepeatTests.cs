namespace RigControl.Kernel.Tests;

/// <summary>Repeats: without a new act while nobody can have reached in, but never without a warning.</summary>
public class RepeatTests
{
    private readonly ScriptedInterlock _temperature = new();

    private KernelBench Rig(int times = 3) => new(new RigBuilder().Times(times).With("temperature", _temperature));

    /// <summary>Runs on with a rotor that turns while it is driven and stands as soon as it is let go.</summary>
    private static KernelBench WithRotor(KernelBench bench)
    {
        bench.OnScan += () => bench.Read(ChannelNames.RotorSpeed, bench.Rig is RigState.SpinUp or RigState.Hold ? 3000 : 0);
        return bench;
    }

    private KernelBench AtRestBetweenRepeats()
    {
        KernelBench bench = Rig().ToCoastDown();
        _temperature.Action = DemandAction.Refuse;
        return bench.Read(ChannelNames.RotorSpeed, 0).ScanUntil(RigState.Idle).ToStandstill();
    }

    [Fact]
    public void A_procedure_runs_as_often_as_it_says_with_one_start()
    {
        KernelBench bench = WithRotor(Rig(3).ToWarning());
        int rises = 0;
        bench.OnScan += () => rises += bench.Record.Fired == Trigger.Rise ? 1 : 0;
        bench.ScanUntil(() => bench.Record.Finished);
        Assert.Equal((3, 3, RigState.Idle), (rises, bench.Record.Repeat, bench.Rig));
    }

    [Trait("Requirement", "SAF-035")]
    [Fact]
    public void Only_the_first_arming_says_that_an_operator_arms()
    {
        KernelBench bench = WithRotor(Rig(3).ToIdle());
        List<int> said = [];
        bench.OnScan += () =>
        {
            if (bench.Outputs.OperatorArms)
                said.Add(bench.Record.Repeat);
            if (bench.Record.Phase == ArmingPhase.AwaitingStart)
                bench.Give(CommandKind.Start);
        };
        bench.Give(CommandKind.Arm);
        bench.ScanUntil(() => bench.Record.Finished);
        Assert.Equal([1], said.Distinct());
    }

    [Trait("Requirement", "SAF-004")]
    [Fact]
    public void Every_repeat_has_its_own_three_seconds_of_warning()
    {
        KernelBench bench = WithRotor(Rig(3).ToWarning());
        int warned = 1, rises = 0;
        bench.OnScan += () =>
        {
            if (bench.Record.Fired == Trigger.Rise)
            {
                Assert.Equal(600, warned);
                (warned, rises) = (0, rises + 1);
            }

            warned += bench.Outputs.Warning ? 1 : 0;
        };
        bench.ScanUntil(() => bench.Record.Finished);
        Assert.Equal(3, rises);
    }

    [Fact]
    public void A_repeat_waits_until_the_rotor_stands()
    {
        KernelBench bench = Rig().ToCoastDown().Read(ChannelNames.RotorSpeed, 45).ScanUntil(RigState.Idle).ScanFor(2);
        Assert.Equal(RigState.Idle, bench.Rig);
        bench.Read(ChannelNames.RotorSpeed, 0).ScanFor(0.2);
        Assert.Equal(RigState.Arming, bench.Rig);
    }

    [Fact]
    public void A_repeat_waits_until_nothing_objects()
    {
        KernelBench bench = AtRestBetweenRepeats().ScanFor(1);
        Assert.Equal(RigState.Idle, bench.Rig);
        _temperature.Action = DemandAction.Proceed;
        bench.Scan();
        Assert.Equal(RigState.Arming, bench.Rig);
    }

    [Fact]
    public void A_repeat_that_cannot_begin_trips_after_its_deadline()
    {
        KernelBench bench = AtRestBetweenRepeats();
        bench.ScanUntil(RigState.SafeStop);
        Assert.Equal(TripCause.Deadline, bench.Record.NewCauses);
    }

    [Trait("Requirement", "SAF-005")]
    [Theory]
    [InlineData(ChannelNames.EnclosureLock)]
    [InlineData(ChannelNames.EnclosureLid)]
    public void A_lid_that_does_not_read_shut_between_repeats_ends_them(string channel)
    {
        KernelBench bench = AtRestBetweenRepeats().Read(channel, 0).Scan().Read(channel, 1);
        EndsHere(bench);
    }

    [Trait("Requirement", "SAF-005")]
    [Theory]
    [InlineData(ChannelNames.EnclosureLock)]
    [InlineData(ChannelNames.EnclosureLid)]
    public void A_lid_that_cannot_be_read_between_repeats_ends_them(string channel)
    {
        KernelBench bench = AtRestBetweenRepeats().Lose(channel).Scan().Read(channel, 1);
        EndsHere(bench);
    }

    [Trait("Requirement", "SAF-005")]
    [Fact]
    public void An_unlock_between_repeats_ends_them()
    {
        KernelBench bench = AtRestBetweenRepeats().Do(CommandKind.Unlock);
        Assert.True(bench.Outputs.Unlocked);
        EndsHere(bench.Do(CommandKind.Lock));
    }

    [Fact]
    public void A_lid_that_opened_for_a_moment_while_the_rotor_ran_down_ends_the_repeats()
    {
        KernelBench bench = Rig().ToCoastDown().Read(ChannelNames.EnclosureLock, 0).Scan().Read(ChannelNames.EnclosureLock, 1);
        EndsHere(bench.Read(ChannelNames.RotorSpeed, 0).ScanUntil(RigState.Idle));
    }

    [Fact]
    public void A_rig_that_can_read_neither_lid_nor_bolt_does_not_repeat()
    {
        RigBuilder rig = new RigBuilder().Times(2).Without(ChannelNames.EnclosureLid).Without(ChannelNames.EnclosureLock);
        EndsHere(new KernelBench(rig).ToCoastDown().Read(ChannelNames.RotorSpeed, 0).ScanUntil(RigState.Idle));
    }

    [Fact]
    public void A_trip_ends_the_repeats_and_the_three_acts_begin_anew()
    {
        KernelBench bench = Rig().ToHold().Do(CommandKind.Stop).Read(ChannelNames.RotorSpeed, 0).ToIdle();
        bench.ScanFor(20);
        Assert.Equal(RigState.Idle, bench.Rig);
        bench.Do(CommandKind.Arm).ScanFor(20);
        Assert.Equal((ArmingPhase.AwaitingStart, 1), (bench.Record.Phase, bench.Record.Repeat));
    }

    [Fact]
    public void A_procedure_that_energises_nothing_runs_as_often_as_it_says()
    {
        KernelBench bench = new KernelBench(new RigBuilder().Times(3).Does(Steps.Rest(0.2))).ToIdle();
        TimeSpan begun = bench.Record.Now;
        bench.ScanUntil(() => bench.Record.Finished);
        Assert.Equal((3, 0.6), (bench.Record.Repeat, (bench.Record.Now - begun).TotalSeconds));
    }

    // Whatever clears afterwards, nothing energises again, and only new acts from the reset on could.
    private void EndsHere(KernelBench bench)
    {
        _temperature.Action = DemandAction.Proceed;
        bench.OnScan = () => Assert.False(bench.Outputs.Power);
        bench.ScanFor(20);
        Assert.True(bench.Record.Finished);
        Assert.Equal(RefusalReason.NotInProcedure, bench.Give(CommandKind.Arm));
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Start));
    }
}

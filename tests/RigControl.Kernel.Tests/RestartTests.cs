namespace RigControl.Kernel.Tests;

/// <summary>What follows a stop, held against what is published: neither the reset of a stop device nor a guard that is closed starts anything.</summary>
public class RestartTests
{
    // Longer than any wait of the kernel's own.
    private const double LongTime = 120;

    private readonly ScriptedInterlock _stop = new();

    public static TheoryData<string, RigState> ActsAfterStops()
    {
        TheoryData<string, RigState> data = [];
        foreach (string act in StopReference.Acts)
        {
            foreach (RigState state in new[] { RigState.Arming, RigState.SpinUp, RigState.Hold, RigState.CoastDown })
                data.Add(act, state);
        }

        return data;
    }

    [Trait("Requirement", "SAF-003")]
    [Theory]
    [MemberData(nameof(ActsAfterStops))]
    public void What_follows_a_stop_starts_nothing_and_only_a_reset_permits_a_start(string act, RigState stoppedIn)
    {
        KernelBench bench = StoppedIn(stoppedIn);
        bool energised = false;
        bench.OnScan = () => energised |= bench.Outputs.Power || bench.Outputs.Drives;
        Do(bench, act);
        bench.ScanFor(LongTime);
        Assert.Equal(StopReference.Starts(act), energised);
        Assert.Equal(StopReference.PermitsRestart(act), bench.Give(CommandKind.Arm) == RefusalReason.None);
        Assert.Equal(StopReference.PermitsRestart(act) ? RigState.Arming : RigState.SafeStop, bench.Rig);
    }

    // A button that hangs, or a person who presses on.
    [Trait("Requirement", "SAF-003")]
    [Fact]
    public void A_reset_that_is_given_without_end_starts_nothing()
    {
        KernelBench bench = StoppedIn(RigState.Hold);
        LetGo(bench);
        bench.OnScan = () => Assert.False(bench.Outputs.Power || bench.Outputs.Drives);
        for (TimeSpan end = bench.Now + TimeSpan.FromSeconds(LongTime); bench.Now < end;)
            bench.Give(CommandKind.Reset);
        Assert.Equal(RigState.Idle, bench.Rig);
    }

    [Trait("Requirement", "SAF-002")]
    [Fact]
    public void A_stop_that_is_let_go_is_not_reset_by_that_nor_by_time_nor_by_anybody_away_from_the_bench()
    {
        KernelBench bench = StoppedIn(RigState.Hold);
        LetGo(bench);
        bench.ScanFor(LongTime);
        Assert.Equal(RefusalReason.NotFromHere, bench.Give(CommandKind.Reset, CommandSource.Network));
        Assert.Equal(RefusalReason.NotFromHere, bench.Give(CommandKind.Reset, CommandSource.Host));
        bench.ScanFor(1);
        Assert.Equal(RigState.SafeStop, bench.Rig);
    }

    [Trait("Requirement", "SAF-002")]
    [Fact]
    public void While_the_stop_is_still_pressed_a_reset_is_refused_and_permits_nothing()
    {
        KernelBench bench = StoppedIn(RigState.Hold);
        Assert.Equal(RefusalReason.CauseStands, bench.Give(CommandKind.Reset));
        bench.Give(CommandKind.Arm);
        Assert.Equal((RigState.SafeStop, OutputSwitches.None), (bench.ScanFor(1).Rig, bench.Outputs.Switches));
    }

    // Stopped by the interlock, the lid open besides, and run down.
    private KernelBench StoppedIn(RigState state)
    {
        KernelBench bench = new KernelBench(new RigBuilder().With("stop", _stop)).To(state);
        _stop.Action = DemandAction.CutPower;
        bench.Read(ChannelNames.EnclosureLid, 0).Scan();
        Assert.Equal(RigState.SafeStop, bench.Rig);
        return bench.Read(ChannelNames.RotorSpeed, 0).ToStandstill();
    }

    private void Do(KernelBench bench, string act)
    {
        LetGo(bench);
        switch (act)
        {
            case "reset of the stop device": bench.ScanFor(1).Do(CommandKind.Reset); break;
            case "closing of the guard": break;
            default: Assert.Fail($"nothing here does: {act}"); break;
        }
    }

    // With the cause gone and the guard closed nothing objects any more.
    private void LetGo(KernelBench bench)
    {
        _stop.Action = DemandAction.Proceed;
        bench.Read(ChannelNames.EnclosureLid, 1).Scan();
    }
}

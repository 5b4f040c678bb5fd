namespace RigControl.Kernel.Tests;

/// <summary>The receiver drives only through a gate that the rig opens, on a stick at stop, and loses it with every cause.</summary>
public class GateTests
{
    private readonly ScriptedInterlock _lid = new();

    private KernelBench Rig(params Step[] steps) => new KernelBench(new RigBuilder().Reads(ChannelNames.ReceiverPulse).With("lid", _lid)
        .Does(steps.Length > 0 ? steps : [Steps.Arm(), Steps.Gate(), Steps.CoastDown()])).Read(ChannelNames.ReceiverPulse, 1000);

    private KernelBench Open()
    {
        KernelBench bench = Rig().To(RigState.SpinUp);
        Assert.True(bench.Outputs.Gate);
        return bench;
    }

    [Fact]
    public void While_the_gate_is_open_the_rig_itself_demands_stop()
    {
        KernelBench bench = Open();
        bench.OnScan = () => Assert.True(!bench.Outputs.Gate || (bench.Outputs.Throttle, bench.Outputs.Pulse, bench.Outputs.Power) == (0, 1000, true));
        bench.Read(ChannelNames.ReceiverPulse, 1800).ScanUntil(RigState.CoastDown);
        Assert.False(bench.Outputs.Gate);
    }

    [Fact]
    public void A_gate_is_opened_only_after_reset_arm_start_and_the_warning()
    {
        KernelBench bench = Rig();
        double warned = 0;
        bench.OnScan = () =>
        {
            warned += bench.Outputs.Warning ? 0.005 : 0;
            Assert.True(!bench.Outputs.Gate || warned >= 3 - 1e-6);
        };
        bench.To(RigState.SpinUp);
        Assert.True(bench.Outputs.Gate);
    }

    [Trait("Requirement", "SAF-066")]
    [Theory]
    [InlineData(1025, true)]
    [InlineData(975, true)]
    [InlineData(1025.5, false)]
    [InlineData(974.5, false)]
    [InlineData(0, false)]
    public void It_opens_only_on_a_stick_at_stop(double pulse, bool opens)
    {
        KernelBench bench = Rig().Read(ChannelNames.ReceiverPulse, pulse).To(RigState.Arming);
        bench.ScanUntil(() => bench.Record.Phase == ArmingPhase.AwaitingStart).Do(CommandKind.Start).ScanUntil(() => bench.Rig != RigState.Arming);
        Assert.Equal(opens ? (RigState.SpinUp, TripCause.None) : (RigState.SafeStop, TripCause.Receiver), (bench.Rig, bench.Record.Causes));
        Assert.Equal(opens, bench.Outputs.Gate);
    }

    [Fact]
    public void It_does_not_open_on_a_stick_that_cannot_be_read()
    {
        KernelBench bench = Rig().Lose(ChannelNames.ReceiverPulse).To(RigState.Arming);
        bench.ScanUntil(() => bench.Record.Phase == ArmingPhase.AwaitingStart).Do(CommandKind.Start).ScanUntil(() => bench.Rig != RigState.Arming);
        Assert.Equal((RigState.SafeStop, TripCause.Receiver, false), (bench.Rig, bench.Record.Causes, bench.Outputs.Power));
    }

    [Trait("Requirement", "SAF-066")]
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_receiver_that_falls_silent_or_cannot_be_read_stops_at_once(bool silent)
    {
        KernelBench bench = Open();
        bench = silent ? bench.Read(ChannelNames.ReceiverPulse, 0) : bench.Lose(ChannelNames.ReceiverPulse);
        bench.Scan();
        Assert.Equal((RigState.SafeStop, TripCause.Receiver), (bench.Rig, bench.Record.Causes));
        Assert.Equal((false, false), (bench.Outputs.Gate, bench.Outputs.Power));
        bench.Read(ChannelNames.ReceiverPulse, 1800).ScanFor(2);
        Assert.Equal((RigState.SafeStop, false), (bench.Rig, bench.Outputs.Gate));
    }

    [Trait("Requirement", "SAF-066")]
    [Theory]
    [InlineData(DemandAction.StopOutput)]
    [InlineData(DemandAction.CutPower)]
    public void Every_interlock_closes_the_gate(DemandAction action)
    {
        KernelBench bench = Open();
        _lid.Action = action;
        bench.Scan();
        Assert.Equal((RigState.SafeStop, false), (bench.Rig, bench.Outputs.Gate));
    }

    [Fact]
    public void A_stop_closes_the_gate()
    {
        KernelBench bench = Open();
        bench.Do(CommandKind.Stop);
        Assert.Equal((RigState.SafeStop, false, false), (bench.Rig, bench.Outputs.Gate, bench.Outputs.Power));
    }

    [Fact]
    public void Interlocks_are_told_that_the_receiver_drives()
    {
        Rig().To(RigState.Arming).ScanFor(1);
        Assert.False(_lid.Gated);
        Open().Scan();
        Assert.True(_lid.Gated);
    }

    [Fact]
    public void A_step_that_opens_a_gate_needs_a_rig_that_reads_the_receiver()
    {
        RigBuilder deaf = new RigBuilder().Does(Steps.Arm(), Steps.Gate(), Steps.CoastDown());
        string reason = Assert.Single(Assert.Throws<ConfigurationException>(deaf.Build).Reasons);
        Assert.Equal("step 2 lets the receiver's pulse through, but no device supplies receiver.pulse in us; use a board that reads the receiver", reason);
    }

    [Fact]
    public void A_gate_stands_right_after_an_arm_and_before_a_coast_down()
    {
        Assert.NotNull(Rig(Steps.Arm(), Steps.Gate(), Steps.CoastDown()));
        foreach (Step[] wrong in (Step[][])[
            [Steps.Gate(), Steps.CoastDown()], [Steps.Arm(), Steps.Gate()], [Steps.Arm(), Steps.SpinUp(), Steps.Gate(), Steps.CoastDown()],
            [Steps.Arm(), Steps.Gate(), Steps.Hold(), Steps.CoastDown()], [Steps.Arm(), Steps.Gate(), Steps.SpinUp(), Steps.CoastDown()]])
            Assert.Throws<ConfigurationException>(() => Rig(wrong));
    }

    [Fact]
    public void The_guard_closes_a_gate_that_something_else_opened()
    {
        KernelBench open = Open();
        Assert.True(OutputGuard.Permits(open.Configuration, open.State, open.Outputs));
        Assert.False(OutputGuard.Permits(open.Configuration, open.State, open.Outputs with { Throttle = 0.1, Pulse = 1100 }));
        Assert.False(OutputGuard.Permits(open.Configuration, open.State, open.Outputs with { Switches = OutputSwitches.Gate }));
        KernelState unstarted = open.State;
        unstarted.Flags &= ~StateFlags.Started;
        Assert.False(OutputGuard.Permits(open.Configuration, unstarted, open.Outputs));
        foreach (RigState state in (RigState[])[RigState.SafeStop, RigState.Idle, RigState.Arming, RigState.Hold, RigState.CoastDown])
        {
            KernelState wrong = open.State;
            wrong.State = state;
            Assert.False(OutputGuard.Permits(open.Configuration, wrong, open.Outputs), $"open in {state}");
        }

        KernelBench spinning = new KernelBench(new RigBuilder()).To(RigState.SpinUp);
        Assert.False(OutputGuard.Permits(
            spinning.Configuration, spinning.State, OutputGuard.Stopped(spinning.Configuration) with { Switches = OutputSwitches.Power | OutputSwitches.Gate }));
    }

    [Fact]
    public void It_is_all_the_same_at_which_place_among_the_channels_the_receiver_is()
    {
        RigBuilder rig = new();
        string[] others = [.. rig.ChannelList];
        foreach (string channel in others)
            rig.Without(channel);
        rig.Reads(ChannelNames.ReceiverPulse).Does(Steps.Arm(), Steps.Gate(), Steps.CoastDown());
        foreach (string channel in others)
            rig.Reads(channel);
        KernelBench bench = new KernelBench(rig).Read(ChannelNames.ReceiverPulse, 1000).To(RigState.SpinUp).ScanUntil(RigState.CoastDown);
        Assert.Equal(TripCause.None, bench.Record.Causes);
    }
}

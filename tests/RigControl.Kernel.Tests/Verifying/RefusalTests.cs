namespace RigControl.Kernel.Tests.Verifying;

/// <summary>A verification that could prove nothing, or would go above its ceiling, is refused before anything is armed.</summary>
public class RefusalTests
{
    private static readonly Provocation Good = VerifyingRig.ByHand;

    public static TheoryData<string, Provocation> BadProvocations() => new()
    {
        { "step 3 looks at 0 signs; it must be 1 to 4", Good with { Evidence = [] } },
        { "step 3 looks at 5 signs; it must be 1 to 4", Good with { Evidence = [.. Enumerable.Repeat(Good.Evidence[0], 5)] } },
        { "step 3 allows 0 s for its evidence; it must lie above 0 s and be at most 300 s", Good with { Allowed = TimeSpan.Zero } },
        { "step 3 allows 300.005 s for its evidence; it must lie above 0 s and be at most 300 s", Good with { Allowed = Steps.Seconds(300.005) } },
        { "step 3 must expect one cause where a person or the rotor provokes, and none where the host does", Good with { Expected = null } },
        { "step 3 must expect one cause where a person or the rotor provokes, and none where the host does", Good with { Manner = ProvocationManner.Silence } },
        { "step 3 must expect one cause where a person or the rotor provokes, and none where the host does", Good with { Manner = ProvocationManner.ThroughGate, Expected = null } },
        { "step 3 expects something of the interlock door, which the rig does not have", Good with { Expected = "door" } },
        { "step 3 expects something of the interlock door, which the rig does not have", Good with { Consequences = ["door"] } },
        { "step 3 cannot lower the limit of lid", Good with { Lowered = new LoweredLimit("lid", "Limit", 1) } },
        { "step 3 compares output.throttle with NaN, which is no number to compare with", Good with { Evidence = [Steps.Below(VerifyingRig.Output, double.NaN)] } },
        { "step 3 asks that output.throttle holds for 0.2 s, which must lie between 0 s and its timeout", Good with { Evidence = [Steps.Below(VerifyingRig.Output, 1, 0.2)] } },
    };

    [Theory]
    [MemberData(nameof(BadProvocations))]
    public void A_provocation_that_could_prove_nothing_is_refused(string reason, Provocation provocation) =>
        Assert.Equal([reason], Reasons(VerifyingRig.Doing(provocation)));

    [Fact]
    public void Four_signs_and_five_minutes_are_taken() => Assert.Empty(Reasons(VerifyingRig.Doing(
        Good with { Evidence = [.. Enumerable.Repeat(Good.Evidence[0], 4)], Allowed = Steps.Seconds(300) })));

    [Theory]
    [InlineData(0.2, 500, null)]
    [InlineData(1, 1, null)]
    [InlineData(0, 500, "the verification's highest throttle is 0 %; it must lie above 0 % and be at most 100 %")]
    [InlineData(1.5, 500, "the verification's highest throttle is 150 %; it must lie above 0 % and be at most 100 %")]
    [InlineData(double.NaN, 500, "the verification's highest throttle is NaN %; it must lie above 0 % and be at most 100 %")]
    [InlineData(0.2, 0, "the verification's highest speed is 0 rpm; give a speed above 0 rpm")]
    [InlineData(0.2, double.NaN, "the verification's highest speed is NaN rpm; give a speed above 0 rpm")]
    [InlineData(0.2, double.PositiveInfinity, "the verification's highest speed is Infinity rpm; give a speed above 0 rpm")]
    [InlineData(0.19, 500, "step 2 of the verification goes above its ceiling")]
    public void A_ceiling_that_is_none_is_refused(double throttle, double speed, string? reason)
    {
        IReadOnlyList<string> reasons = Reasons(VerifyingRig.Doing(Good), new VerificationCeiling(throttle, speed));
        if (reason is null)
            Assert.Empty(reasons);
        else
            Assert.Contains(reason, reasons);
    }

    [Fact]
    public void A_provocation_belongs_to_a_provoking_step_and_every_such_step_has_one()
    {
        Step[] steps = VerifyingRig.Doing(Good);
        const string reason = "must say what it provokes, and no other step may";
        Assert.Equal([$"step 3 {reason}"], Reasons([steps[0], steps[1], steps[2] with { Provocation = null }, steps[3]]));
        Assert.Equal([$"step 4 {reason}"], Reasons([steps[0], steps[1], steps[2], steps[3] with { Provocation = Good }]));
    }

    [Fact]
    public void The_reset_after_the_last_provocation_is_part_of_it() => Assert.Equal(
        ["the last step provokes; end with rest, so that the reset after it is part of the verification"], Reasons(VerifyingRig.Doing(Good)[..3]));

    [Fact]
    public void Between_arm_and_what_is_provoked_the_power_neither_comes_nor_goes()
    {
        Step[] steps = VerifyingRig.Doing(Good);
        Step[] unpowered = VerifyingRig.Doing(Good, unpowered: true);
        Assert.Equal(["step 2 of the verification takes the power in the middle; arm anew"], Reasons([steps[0], .. unpowered[1..]]));
        Assert.Equal(["step 3 of the verification wants the power in the middle; arm anew"], Reasons([.. unpowered[..2], .. steps[2..]]));
        Assert.Empty(Reasons([.. unpowered[..3], .. steps]));
    }

    [Fact]
    public void The_receiver_s_pulse_goes_through_only_where_it_is_read()
    {
        Provocation radio = Good with { Manner = ProvocationManner.ThroughGate, Expected = "receiver" };
        Assert.Equal(["step 3 lets the receiver's pulse through, but no device supplies receiver.pulse in us; use a board that reads the receiver"],
            Reasons(VerifyingRig.Doing(radio), change: rig => rig.Without(ChannelNames.ReceiverPulse)));
    }

    [Fact]
    public void It_is_done_once_and_with_a_speed_to_look_at()
    {
        Assert.Equal(["a verification is done once"], Reasons(VerifyingRig.Doing(Good), change: rig => rig.Times(2)));
        Assert.Equal(["no device supplies rotor.speed, without which nobody sees whether anything stops; add a tachometer"],
            Reasons(VerifyingRig.Doing(Good), change: rig => rig.Without(ChannelNames.RotorSpeed)));
    }

    [Fact]
    public void An_ordinary_run_provokes_nothing_and_has_power()
    {
        const string reason = "only a verification of the failsafe makes faults on purpose, or arms without power";
        Step[] run = [Steps.Arm(), Steps.SpinUp(), Steps.CoastDown()];
        Assert.Contains(reason, Reasons(VerifyingRig.Doing(Good), change: Ordinary));
        Assert.Equal([reason], Reasons([run[0] with { Unpowered = true }, run[1], run[2]], change: Ordinary));
        Assert.Equal([reason], Reasons([run[0], run[1] with { Provocation = Good }, run[2]], change: Ordinary));
        Assert.Empty(Reasons(run, change: Ordinary));
    }

    [Fact]
    public void Names_become_the_places_of_the_interlocks()
    {
        CompiledProvocation compiled = new VerifyingRig(Good with { Expected = "stop", Consequences = ["lid", "stop"] }).Bench.Configuration.StepAt(2).Provocation!;
        Assert.Equal((1, TripCause.None, 0b11u, -1), (compiled.Expected, compiled.ExpectedCause, compiled.Consequences, compiled.LoweredPlace));
        CompiledProvocation own = new VerifyingRig(Good with { Manner = ProvocationManner.ThroughGate, Expected = "receiver", Consequences = ["stop"] }).Bench.Configuration.StepAt(2).Provocation!;
        Assert.Equal((-1, TripCause.Receiver, 0b10u), (own.Expected, own.ExpectedCause, own.Consequences));
    }

    private static void Ordinary(RigBuilder rig) => rig.Procedure = rig.Procedure with { Verification = null };

    private static IReadOnlyList<string> Reasons(Step[] steps, VerificationCeiling? ceiling = null, Action<RigBuilder>? change = null)
    {
        RigBuilder rig = new RigBuilder().Reads(VerifyingRig.Output).Reads(ChannelNames.ReceiverPulse).With("lid", new ScriptedInterlock()).With("stop", new ScriptedInterlock()).Does(steps);
        rig.Procedure = rig.Procedure with { Verification = ceiling ?? new VerificationCeiling(0.2, 500) };
        change?.Invoke(rig);
        return Record.Exception(rig.Build) is ConfigurationException refused ? refused.Reasons : [];
    }
}

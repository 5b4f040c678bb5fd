namespace RigControl.Kernel.Tests;

/// <summary>What does not fit together is refused with sentences to act on, all at once.</summary>
public class ConfigurationCompilerTests
{
    private static string Refusal(RigBuilder rig) => Assert.Single(Assert.Throws<ConfigurationException>(rig.Build).Reasons);

    private static RigBuilder Doing(params Step[] steps) => new RigBuilder().Does(steps);

    [Fact]
    public void A_rig_that_fits_together_is_compiled()
    {
        Configuration configuration = new RigBuilder().Build();
        Assert.Equal((4, 0, 0, 2, 1), (configuration.StepCount, configuration.InterlockCount, configuration.SpeedChannel, configuration.LockChannel, configuration.LidChannel));
    }

    public static TheoryData<string, Step[]> BadSteps() => new()
    {
        { "the procedure has no steps", [] },
        { "step 1 cannot be spin-up after rest", [Steps.SpinUp(), Steps.CoastDown()] },
        { "step 1 cannot be hold after rest", [Steps.Hold(), Steps.CoastDown()] },
        { "the last step is hold; end with coast-down or rest, so that nothing is left energised", [Steps.Arm(), Steps.SpinUp(), Steps.Hold()] },
        { "step 2 asks for a throttle of -10 %, but this controller takes 0 % to 100 %", [Steps.Arm(), Steps.SpinUp(-0.1), Steps.CoastDown()] },
        { "step 2 asks for a throttle of NaN %, but this controller takes 0 % to 100 %", [Steps.Arm(), Steps.SpinUp(double.NaN), Steps.CoastDown()] },
        { "step 1 has no way out; give it a time or a condition", [Steps.Rest() with { For = null }] },
        { "step 3 has no way out; give it a time or a condition", [Steps.Arm(), Steps.SpinUp(), Steps.CoastDown() with { Until = [] }] },
        { "step 1 has no timeout above zero; without one it could go on for ever", [Steps.Rest(0) with { Timeout = TimeSpan.Zero }] },
        { "step 2 has a ramp of 6 s, which must lie between 0 s and its timeout", [Steps.Arm(), Steps.SpinUp(0.5, 6, 5), Steps.CoastDown()] },
        { "step 1 lasts 9 s, which must lie between 0 s and its timeout", [Steps.Rest(9) with { Timeout = Steps.Seconds(1) }] },
        { "step 1 has 5 conditions, but 4 is the most that one step can have", [Steps.Rest() with { Until = [.. Enumerable.Repeat(Steps.Below(ChannelNames.RotorSpeed, 1), 5)] }] },
        { "step 1 compares rotor.speed with NaN, which is no number to compare with", [Steps.Rest() with { Until = [Steps.Below(ChannelNames.RotorSpeed, double.NaN)] }] },
        { "step 1 asks that rotor.speed holds for 9 s, which must lie between 0 s and its timeout", [Steps.Rest() with { Until = [Steps.Below(ChannelNames.RotorSpeed, 1, 9)] }] },
        { "step 1 asks that rotor.speed stays within -1; a band cannot be negative", [Steps.Rest() with { Until = [Steps.Steady(ChannelNames.RotorSpeed, -1, false, 0)] }] },
        { "step 1 gives a share for rotor.speed; only a steady band can be a share", [Steps.Rest() with { Until = [Steps.Below(ChannelNames.RotorSpeed, 1) with { Relative = true }] }] },
        { "step 1 waits for the channel speed, which no device supplies; there are rotor.speed, enclosure.lid, enclosure.lock, motor.temperature", [Steps.Rest() with { Until = [Steps.Below("speed", 1)] }] },
        { "step 1 names the interlock lid, which the rig does not have; it has none", [Steps.Rest() with { Interlocks = ["lid"] }] },
        { "step 1 requires the interlock lid, which the rig does not have; it has none", [Steps.Rest() with { Permissives = ["lid"] }] },
        { "step 1 must have a question if it asks, and none otherwise", [Steps.Rest() with { Question = new Question("mass", "mass", "g", 0, 1, 1, []) }] },
        { "step 1 must have a question if it asks, and none otherwise", [new Step { Kind = StepKind.Ask, Timeout = Steps.Seconds(1) }] },
        { "there are 129 steps, but 128 is the most that one rig can have", [.. Enumerable.Repeat(Steps.Rest(), 129)] },
    };

    [Theory]
    [MemberData(nameof(BadSteps))]
    public void A_step_that_cannot_be_run_is_refused_with_its_reason(string reason, Step[] steps) => Assert.Equal(reason, Refusal(Doing(steps)));

    [Fact]
    public void Four_conditions_and_a_controller_that_needs_no_time_to_arm_are_taken() => Assert.NotNull(
        Doing([Steps.Rest() with { Until = [.. Enumerable.Repeat(Steps.Below(ChannelNames.RotorSpeed, 1), 4)] }])
            .Drives(RigBuilder.OneWay with { ArmingTime = TimeSpan.Zero }).Build());

    [Theory]
    [InlineData(0)]
    [InlineData(1001)]
    public void A_procedure_that_repeats_never_or_too_often_is_refused(int times) =>
        Assert.Equal($"the procedure repeats its steps {times} times; it must be 1 to 1000 times", Refusal(new RigBuilder().Times(times)));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(double.PositiveInfinity)]
    public void A_standstill_speed_that_proves_nothing_is_refused(double speed)
    {
        RigBuilder rig = new();
        rig.Rig = rig.Rig with { StandstillSpeed = speed };
        Assert.StartsWith("the standstill speed is", Refusal(rig));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(0)]
    [InlineData(double.PositiveInfinity)]
    public void A_fastest_rise_that_limits_nothing_is_refused(double rise)
    {
        RigBuilder rig = new();
        rig.Article = rig.Article with { MaximumRise = rise };
        Assert.StartsWith("the fastest rise is", Refusal(rig));
    }

    [Fact]
    public void Times_that_cannot_be_are_refused()
    {
        RigBuilder rig = new();
        rig.Rig = rig.Rig with { ScanPeriod = TimeSpan.FromMilliseconds(101), StandstillTime = TimeSpan.Zero };
        rig.Article = rig.Article with { StoppingTime = Steps.Seconds(11), LongestCoastDown = TimeSpan.Zero };
        rig.Drives(RigBuilder.OneWay with { ArmingTime = Steps.Seconds(-1) });
        Assert.Equal(
            [
                "the scan period is 101 ms; it must lie between 1 ms and 100 ms",
                "the standstill time is not above zero; give the time for which the rotor must stand",
                "the stopping time is 11 s; it must lie between 0 s and 10 s",
                "the longest coast-down is not above zero; give the longest time that the rotor may take to stand still",
                "the controller's arming time is below zero",
            ],
            Assert.Throws<ConfigurationException>(rig.Build).Reasons);
    }

    [Theory]
    [InlineData(1000, 1000, 1000)]
    [InlineData(900, 1000, 2000)]
    [InlineData(2100, 1000, 2000)]
    [InlineData(400, 400, 2000)]
    [InlineData(1000, 1000, 2600)]
    [InlineData(double.NaN, 1000, 2000)]
    public void A_controller_whose_pulses_do_not_fit_is_refused(double stop, double shortest, double longest)
    {
        RigBuilder rig = new RigBuilder().Drives(RigBuilder.OneWay with { StopPulse = stop, MinimumPulse = shortest, MaximumPulse = longest });
        Assert.All(Assert.Throws<ConfigurationException>(rig.Build).Reasons, reason => Assert.StartsWith("the controller", reason));
    }

    [Fact]
    public void Two_interlocks_of_one_name_are_refused() => Assert.Equal(
        "2 interlocks are called lid; each needs a name of its own",
        Refusal(new RigBuilder().With("lid", new ScriptedInterlock()).With("lid", new ScriptedInterlock())));

    [Fact]
    public void More_interlocks_than_there_are_bits_are_refused()
    {
        RigBuilder rig = new();
        for (int i = 0; i < 33; i++)
            rig.With($"interlock-{i}", new ScriptedInterlock());
        Assert.Equal("there are 33 interlocks, but 32 is the most that one rig can have", Refusal(rig));
    }

    [Fact]
    public void A_channel_in_the_wrong_place_is_refused()
    {
        RigBuilder rig = new RigBuilder().Does(Steps.Rest());
        Assert.Equal(
            "the channel rotor.speed is at place 0 but says 3",
            Assert.Single(Assert.Throws<ConfigurationException>(() =>
                ConfigurationCompiler.Compile(rig.Rig, rig.Article, rig.Procedure, [RigBuilder.Channel(3, ChannelNames.RotorSpeed)], [])).Reasons));
    }

    [Fact]
    public void Every_mistake_is_told_at_once()
    {
        RigBuilder rig = Doing(Steps.SpinUp(2), Steps.Hold() with { For = null }).Times(0);
        Assert.Equal(5, Assert.Throws<ConfigurationException>(rig.Build).Reasons.Count);
    }

    [Theory]
    [InlineData(1, true)]
    [InlineData(100, true)]
    [InlineData(0.9, false)]
    [InlineData(100.1, false)]
    public void A_scan_period_from_1_ms_to_100_ms_is_taken(double milliseconds, bool taken)
    {
        RigBuilder rig = new();
        rig.Rig = rig.Rig with { ScanPeriod = TimeSpan.FromMilliseconds(milliseconds) };
        string[] expected = taken ? [] : [$"the scan period is {milliseconds} ms; it must lie between 1 ms and 100 ms"];
        Assert.Equal(expected, Record.Exception(rig.Build) is ConfigurationException refused ? refused.Reasons : []);
    }
}

namespace RigControl.Kernel.Tests.Verifying;

/// <summary>
/// A verification of one provocation: arm, rise to 20 %, provoke, rest. Its ceiling is 20 % and 500 rpm. The output's own reading shows
/// whether it is live; two interlocks, lid and stop, say what the test tells them.
/// </summary>
internal sealed class VerifyingRig
{
    public const int ProvokingStep = 2;

    /// <summary>Of the output, 0 at stop.</summary>
    public const string Output = ChannelNames.OutputThrottle;

    public static readonly Provocation ByHand = new()
    {
        Name = "lid", Manner = ProvocationManner.Awaited, Expected = "lid", Evidence = [Steps.Below(Output, 10)], Allowed = Steps.Seconds(0.1),
    };

    /// <param name="provocation">What the third step provokes.</param>
    /// <param name="unpowered">Whether the power stays off in all three.</param>
    /// <param name="lowered">The lid's interlock with a lower limit.</param>
    /// <param name="throttle">Of the ceiling and the rise, a share.</param>
    /// <param name="controller">In place of the one-way one.</param>
    /// <param name="opens">Whether the second step opens the gate in place of a rise.</param>
    public VerifyingRig(
        Provocation provocation, bool unpowered = false, IInterlock? lowered = null, double throttle = 0.2, ControllerProfile? controller = null, bool opens = false)
    {
        Step[] steps = Doing(provocation, unpowered, throttle);
        if (opens)
            steps[1] = Steps.Gate() with { Unpowered = unpowered };
        RigBuilder rig = new RigBuilder { Lowered = lowered }.Reads(Output).Reads(ChannelNames.ReceiverPulse).With("lid", Lid).With("stop", Stop)
            .Drives(controller ?? RigBuilder.OneWay).Does(steps);
        rig.Procedure = rig.Procedure with { Verification = new VerificationCeiling(throttle, 500) };
        Bench = new KernelBench(rig).Read(ChannelNames.ReceiverPulse, rig.Article.Controller.StopPulse);
    }

    public ScriptedInterlock Lid { get; } = new();

    public ScriptedInterlock Stop { get; } = new();

    public KernelBench Bench { get; }

    public TripCause Causes => Bench.Record.Causes;

    /// <summary>The three steps of a provocation and a rest.</summary>
    public static Step[] Doing(Provocation provocation, bool unpowered = false, double throttle = 0.2) =>
    [
        Steps.Arm() with { Unpowered = unpowered },
        Steps.SpinUp(throttle, 0) with { Unpowered = unpowered },
        new Step { Kind = StepKind.Provoke, Provocation = provocation, Throttle = throttle, Timeout = Steps.Seconds(2), Unpowered = unpowered },
        Steps.Rest(),
    ];

    /// <summary>One that the host makes itself, for which nothing has to trip.</summary>
    public static Provocation ByHost(ProvocationManner manner) => ByHand with { Name = "host", Manner = manner, Expected = null };

    /// <summary>The first scan of the provoking step, with the output live and the rotor turning.</summary>
    public VerifyingRig ToProvoking()
    {
        Bench.ToWarning().ScanUntil(RigState.SpinUp).Read(Output, 20).Read(ChannelNames.RotorSpeed, 400);
        Bench.ScanUntil(() => Bench.Record.Step == ProvokingStep).Scan();
        return this;
    }

    /// <summary>The output is seen at stop and the rotor at rest.</summary>
    public VerifyingRig IsSeenToStop()
    {
        Bench.Read(Output, 0).Read(ChannelNames.RotorSpeed, 0).Scan();
        return this;
    }

    /// <summary>What becomes of a reset at standstill.</summary>
    public RefusalReason Reset()
    {
        Bench.Read(ChannelNames.RotorSpeed, 0).ToStandstill();
        return Bench.Give(CommandKind.Reset);
    }
}

namespace RigControl.Kernel.Tests.Support;

/// <summary>The ways of an operator to each state.</summary>
internal static class Ways
{
    public static KernelBench ToStandstill(this KernelBench bench) => bench.ScanUntil(() => bench.Record.AtStandstill);

    public static KernelBench ToIdle(this KernelBench bench) => bench.ToStandstill().Do(CommandKind.Reset);

    public static KernelBench ToArming(this KernelBench bench) => bench.ToIdle().Do(CommandKind.Arm);

    public static KernelBench ToAwaitingStart(this KernelBench bench) => bench.ToArming().ScanUntil(() => bench.Record.Phase == ArmingPhase.AwaitingStart);

    public static KernelBench ToWarning(this KernelBench bench) => bench.ToAwaitingStart().Do(CommandKind.Start);

    /// <summary>The rotor turns from here on.</summary>
    public static KernelBench ToSpinUp(this KernelBench bench) => bench.ToWarning().ScanUntil(RigState.SpinUp).Read(ChannelNames.RotorSpeed, 3000);

    public static KernelBench ToHold(this KernelBench bench) => bench.ToSpinUp().ScanUntil(RigState.Hold);

    public static KernelBench ToCoastDown(this KernelBench bench) => bench.ToHold().ScanUntil(RigState.CoastDown);

    public static KernelBench To(this KernelBench bench, RigState state) => state switch
    {
        RigState.SafeStop => bench.ToStandstill(),
        RigState.Idle => bench.ToIdle(),
        RigState.Arming => bench.ToArming(),
        RigState.SpinUp => bench.ToSpinUp(),
        RigState.Hold => bench.ToHold(),
        _ => bench.ToCoastDown(),
    };
}

using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>The outputs as a function of the state, then the slew limit.</summary>
internal static class Outputs
{
    // Causes of the kernel's own after which the controller may still brake under power.
    private const TripCause StopUnderPower = TripCause.Deadline | TripCause.Permissive;

    public static OutputImage Of(Configuration configuration, ref KernelState state)
    {
        if (state.State == RigState.SafeStop && !MayStopUnderPower(configuration, state))
            state.Flags &= ~StateFlags.StoppingUnderPower;
        CompiledStep step = configuration.Steps[state.Step];
        double throttle = Slew(configuration, state.Throttle, Wanted(state, step, step.Throttle, state.RampFrom, state.Throttle));
        double second = Slew(configuration, state.SecondThrottle, Wanted(state, step, step.SecondThrottle, state.SecondRampFrom, state.SecondThrottle));
        return new OutputImage
        {
            Throttle = throttle,
            Pulse = Ceases(step, state) ? 0 : configuration.Controller.PulseFor(throttle),
            SecondThrottle = second,
            SecondPulse = configuration.SecondController?.PulseFor(second) ?? 0,
            Switches = Switches(state, step),
        };
    }

    // Of one output: where it is to go in this step, where it was at the entry, where it is.
    private static double Wanted(in KernelState state, CompiledStep step, double level, double from, double held) => (state.State, step.Kind) switch
    {
        (RigState.SpinUp, StepKind.SpinUp) => Ramp(step, state, level, from),
        (RigState.Hold, StepKind.Hold) => held,
        (RigState.SpinUp or RigState.Hold, StepKind.Provoke) when Provoking.KeepsDemand(step, state) => held,
        _ => 0,
    };

    private static double Ramp(CompiledStep step, in KernelState state, double level, double from)
    {
        long inStep = (state.Now - state.StepSince).Ticks;
        return inStep >= step.Ramp.Ticks ? level : from + (level - from) * inStep / step.Ramp.Ticks;
    }

    // Only a rise is limited; towards stop the output goes at once.
    private static double Slew(Configuration configuration, double now, double wanted)
    {
        double most = configuration.MaximumRise * configuration.ScanPeriod.Ticks / TimeSpan.TicksPerSecond;
        if (wanted > 0 && wanted > now + most)
            return now < 0 ? 0 : now + most;
        if (wanted < 0 && wanted < now - most)
            return now > 0 ? 0 : now - most;
        return wanted;
    }

    private static OutputSwitches Switches(in KernelState state, CompiledStep step)
    {
        OutputSwitches switches = OutputSwitches.None;
        bool armed = state.State is RigState.Arming or RigState.SpinUp or RigState.Hold or RigState.CoastDown;
        if ((armed && !Provoking.KeepsPowerOff(step, state)) || (state.Flags & StateFlags.StoppingUnderPower) != 0)
            switches |= OutputSwitches.Power;
        if (state.State == RigState.Idle && (state.Flags & (StateFlags.UnlockWanted | StateFlags.AtStandstill)) == (StateFlags.UnlockWanted | StateFlags.AtStandstill))
            switches |= OutputSwitches.Unlocked;
        if (state.Phase == ArmingPhase.Warning)
            switches |= OutputSwitches.Warning;
        if (state.Phase == ArmingPhase.Preparing && (state.Flags & StateFlags.Started) == 0)
            switches |= OutputSwitches.OperatorArms;
        if (IsGateOpen(step, state))
            switches |= OutputSwitches.Gate;
        if (FallsSilent(step, state))
            switches |= OutputSwitches.Silent;
        if (state.Now < state.MarkUntil)
            switches |= OutputSwitches.Marker;
        return switches;
    }

    /// <summary>Whether the receiver's pulse goes through.</summary>
    public static bool IsGateOpen(CompiledStep step, in KernelState state) =>
        state.State == RigState.SpinUp && step.PassesReceiver;

    private static bool Ceases(CompiledStep step, in KernelState state) =>
        IsLive(state) && step.Provocation?.Manner == ProvocationManner.CeasedPulses && Provoking.IsOn(state);

    private static bool FallsSilent(CompiledStep step, in KernelState state) =>
        IsLive(state) && step.Provocation?.Manner == ProvocationManner.Silence && Provoking.IsOn(state);

    private static bool IsLive(in KernelState state) => state.State is RigState.SpinUp or RigState.Hold;

    // A verification's stop is never one under power.
    private static bool MayStopUnderPower(Configuration configuration, in KernelState state)
    {
        if ((state.Flags & StateFlags.StoppingUnderPower) == 0 || state.Mode == KernelMode.Verification || state.Now - state.StateSince >= configuration.StoppingTime)
            return false;
        if ((state.Causes & ~StopUnderPower) != 0)
            return false;
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            // The first demand is the cause, but a later and stronger one still cuts the power.
            ref readonly InterlockSlot slot = ref state.Interlocks[i];
            if (slot.IsLatched && (slot.Latched.Action == DemandAction.CutPower || slot.Current.Action == DemandAction.CutPower))
                return false;
        }

        return true;
    }
}

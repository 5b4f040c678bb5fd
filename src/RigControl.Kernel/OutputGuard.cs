using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>
/// Asks once more, in words of its own, that energised implies permitted. It shares nothing with the code that
/// computed the outputs, so that a mistake there ends in safe-stop.
/// </summary>
internal static class OutputGuard
{
    // us; far below what any controller can tell apart.
    private const double RoundingOfPulse = 1e-6;

    /// <summary>Stop output, power off, lid locked.</summary>
    public static OutputImage Stopped(Configuration configuration) => new()
    {
        Pulse = configuration.Controller.StopPulse,
        SecondPulse = configuration.SecondStopPulse,
    };

    public static bool Permits(Configuration configuration, in KernelState state, in OutputImage outputs) =>
        (!Drives(configuration, outputs) || MayDrive(configuration, state, outputs))
        && (!outputs.Power || MayPower(configuration, state))
        && (!outputs.Unlocked || MayUnlock(state, outputs));

    // No pulse at all drives nothing that a stop pulse would not; only a verification ever asks for it.
    private static bool Drives(Configuration configuration, in OutputImage outputs) =>
        outputs.Gate
        || outputs.Throttle != 0 || (outputs.Pulse != configuration.Controller.StopPulse && (outputs.Pulse != 0 || configuration.Ceiling is null))
        || outputs.SecondThrottle != 0 || outputs.SecondPulse != configuration.SecondStopPulse;

    private static bool MayDrive(Configuration configuration, in KernelState state, in OutputImage outputs) =>
        state.State is RigState.SpinUp or RigState.Hold
        && (state.Flags & StateFlags.Started) != 0
        && state.Causes == TripCause.None
        && WithinLevel(configuration, state, outputs)
        && WithinRange(configuration.Controller, outputs.Throttle, outputs.Pulse)
        && SecondWithinRange(configuration.SecondController, outputs)
        && (!outputs.Gate || GateMayOpen(configuration, state, outputs))
        && WithinCeiling(configuration, outputs)
        && NobodyStops(configuration, state, Excused(configuration, state, outputs));

    // A hold keeps the level it was entered with; a rise stays between that and its own.
    private static bool WithinLevel(Configuration configuration, in KernelState state, in OutputImage outputs)
    {
        CompiledStep step = configuration.Steps[state.Step];
        bool holds = state.State == RigState.Hold;
        return WithinLevel(outputs.Throttle, holds ? 0 : step.Throttle, state.RampFrom)
            && WithinLevel(outputs.SecondThrottle, holds ? 0 : step.SecondThrottle, state.SecondRampFrom);
    }

    private static bool WithinLevel(double throttle, double level, double from) =>
        Math.Abs(throttle) <= Math.Max(Math.Abs(level), Math.Abs(from)) && throttle is >= -1 and <= 1;

    // While the receiver drives, the rig itself demands nothing but stop.
    private static bool GateMayOpen(Configuration configuration, in KernelState state, in OutputImage outputs) =>
        state.State == RigState.SpinUp
        && (configuration.Steps[state.Step].Kind == StepKind.Gate || configuration.Steps[state.Step].Provocation?.Manner == ProvocationManner.ThroughGate)
        && outputs.Throttle == 0 && outputs.Pulse == configuration.StopPulse
        && outputs.SecondThrottle == 0 && outputs.SecondPulse == configuration.SecondStopPulse
        && outputs.Power != configuration.Steps[state.Step].Unpowered;

    // The pulse stays between the controller's ends, and no further from stop than the throttle says.
    private static bool WithinRange(ControllerProfile controller, double throttle, double pulse)
    {
        double widest = Math.Max(controller.MaximumPulse - controller.StopPulse, controller.StopPulse - controller.MinimumPulse);
        return pulse >= controller.MinimumPulse
            && pulse <= controller.MaximumPulse
            && Math.Abs(pulse - controller.StopPulse) <= Math.Abs(throttle) * widest + RoundingOfPulse;
    }

    private static bool SecondWithinRange(ControllerProfile? second, in OutputImage outputs) => second is null
        ? outputs.SecondThrottle == 0 && outputs.SecondPulse == 0
        : WithinRange(second, outputs.SecondThrottle, outputs.SecondPulse);

    private static bool WithinCeiling(Configuration configuration, in OutputImage outputs) =>
        configuration.Ceiling is not { } ceiling || (Math.Abs(outputs.Throttle) <= ceiling.Throttle && outputs.SecondThrottle == 0);

    // Only while the power is off, only for the time that the provocation allows, and only what it names.
    private static uint Excused(Configuration configuration, in KernelState state, in OutputImage outputs)
    {
        if (configuration.Ceiling is null || outputs.Power || configuration.Steps[state.Step].Provocation is not { } provocation)
            return 0;
        bool inTime = (state.Flags & StateFlags.Provoking) == 0 || state.Now - state.PhaseSince <= provocation.Allowed;
        return inTime ? provocation.Consequences | (provocation.Expected < 0 ? 0 : 1u << provocation.Expected) : 0;
    }

    private static bool NobodyStops(Configuration configuration, in KernelState state, uint excused = 0)
    {
        uint counting = (configuration.AlwaysCounting | configuration.Steps[state.Step].Counting) & ~excused;
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            bool counts = (counting & (1u << i)) != 0;
            bool stops = state.Interlocks[i].Current.Action is DemandAction.CutPower or DemandAction.StopOutput;
            if (state.Interlocks[i].IsLatched || (counts && stops))
                return false;
        }

        return true;
    }

    private static bool MayPower(Configuration configuration, in KernelState state)
    {
        if (state.State is RigState.Arming or RigState.SpinUp or RigState.Hold or RigState.CoastDown)
            return state.Causes == TripCause.None && NobodyStops(configuration, state);
        return state.State == RigState.SafeStop
            && (state.Flags & StateFlags.StoppingUnderPower) != 0
            && (state.Causes | TripCause.Deadline | TripCause.Permissive) == (TripCause.Deadline | TripCause.Permissive)
            && state.Now - state.StateSince < configuration.StoppingTime
            && NobodyCutsPower(configuration, state);
    }

    private static bool NobodyCutsPower(Configuration configuration, in KernelState state)
    {
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            ref readonly InterlockSlot slot = ref state.Interlocks[i];
            if (slot.IsLatched && (slot.Latched.Action is DemandAction.CutPower || slot.Current.Action is DemandAction.CutPower))
                return false;
        }

        return true;
    }

    private static bool MayUnlock(in KernelState state, in OutputImage outputs) =>
        state.State == RigState.Idle && (state.Flags & StateFlags.AtStandstill) != 0 && !outputs.Power;
}

using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>
/// Asks once more, in words of its own, that energised implies permitted. It shares nothing with the code that
/// computed the outputs, so that a mistake there ends in safe-stop.
/// </summary>
internal static class OutputGuard
{
    public static bool Permits(Configuration configuration, in KernelState state, in OutputImage outputs) =>
        (!Drives(configuration, outputs) || MayDrive(configuration, state, outputs))
        && (!outputs.Power || MayPower(configuration, state))
        && (!outputs.Unlocked || MayUnlock(state, outputs));

    private static bool Drives(Configuration configuration, in OutputImage outputs) =>
        outputs.Throttle != 0 || outputs.Pulse != configuration.Controller.StopPulse;

    private static bool MayDrive(Configuration configuration, in KernelState state, in OutputImage outputs) =>
        state.State is RigState.SpinUp or RigState.Hold
        && (state.Flags & StateFlags.Started) != 0
        && state.Causes == TripCause.None
        && WithinLevel(configuration, state, outputs)
        && NobodyStops(configuration, state);

    private static bool WithinLevel(Configuration configuration, in KernelState state, in OutputImage outputs)
    {
        double least = Math.Min(configuration.Controller.MinimumPulse, configuration.Controller.MaximumPulse);
        double most = Math.Max(configuration.Controller.MinimumPulse, configuration.Controller.MaximumPulse);
        bool pulse = outputs.Pulse >= least && outputs.Pulse <= most;
        double level = configuration.Steps[state.Step].Throttle;
        bool throttle = state.State == RigState.Hold || Math.Abs(outputs.Throttle) <= Math.Max(Math.Abs(level), Math.Abs(state.RampFrom));
        return pulse && throttle && outputs.Throttle is >= -1 and <= 1;
    }

    private static bool NobodyStops(Configuration configuration, in KernelState state)
    {
        uint counting = configuration.AlwaysCounting | configuration.Steps[state.Step].Counting;
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
            && (state.Causes & (TripCause.StopCommand | TripCause.HostStop | TripCause.LateScans | TripCause.ClockStep | TripCause.OutputGuard)) == 0
            && state.Now - state.StateSince < configuration.StoppingTime
            && NobodyCutsPower(configuration, state);
    }

    private static bool NobodyCutsPower(Configuration configuration, in KernelState state)
    {
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            if (state.Interlocks[i].IsLatched && state.Interlocks[i].Latched.Action == DemandAction.CutPower)
                return false;
        }

        return true;
    }

    private static bool MayUnlock(in KernelState state, in OutputImage outputs) =>
        state.State == RigState.Idle && (state.Flags & StateFlags.AtStandstill) != 0 && !outputs.Power;
}

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
        double throttle = Slew(configuration, state, Wanted(configuration, state));
        return new OutputImage
        {
            Throttle = throttle,
            Pulse = configuration.Controller.PulseFor(throttle),
            Switches = Switches(state),
        };
    }

    private static double Wanted(Configuration configuration, in KernelState state)
    {
        CompiledStep step = configuration.Steps[state.Step];
        return (state.State, step.Kind) switch
        {
            (RigState.SpinUp, StepKind.SpinUp) => Ramp(step, state),
            (RigState.Hold, StepKind.Hold) => state.Throttle,
            _ => 0,
        };
    }

    private static double Ramp(CompiledStep step, in KernelState state)
    {
        long inStep = (state.Now - state.StepSince).Ticks;
        return inStep >= step.Ramp.Ticks ? step.Throttle : state.RampFrom + (step.Throttle - state.RampFrom) * inStep / step.Ramp.Ticks;
    }

    // Only a rise is limited; towards stop the output goes at once.
    private static double Slew(Configuration configuration, in KernelState state, double wanted)
    {
        double most = configuration.MaximumRise * configuration.ScanPeriod.Ticks / TimeSpan.TicksPerSecond;
        if (wanted > 0 && wanted > state.Throttle + most)
            return state.Throttle < 0 ? 0 : state.Throttle + most;
        if (wanted < 0 && wanted < state.Throttle - most)
            return state.Throttle > 0 ? 0 : state.Throttle - most;
        return wanted;
    }

    private static OutputSwitches Switches(in KernelState state)
    {
        OutputSwitches switches = OutputSwitches.None;
        if (state.State is RigState.Arming or RigState.SpinUp or RigState.Hold or RigState.CoastDown || (state.Flags & StateFlags.StoppingUnderPower) != 0)
            switches |= OutputSwitches.Power;
        if (state.State == RigState.Idle && (state.Flags & (StateFlags.UnlockWanted | StateFlags.AtStandstill)) == (StateFlags.UnlockWanted | StateFlags.AtStandstill))
            switches |= OutputSwitches.Unlocked;
        if (state.Phase == ArmingPhase.Warning)
            switches |= OutputSwitches.Warning;
        if (state.Phase == ArmingPhase.Preparing && (state.Flags & StateFlags.Started) == 0)
            switches |= OutputSwitches.OperatorArms;
        if (state.Now < state.MarkUntil)
            switches |= OutputSwitches.Marker;
        return switches;
    }

    private static bool MayStopUnderPower(Configuration configuration, in KernelState state)
    {
        if ((state.Flags & StateFlags.StoppingUnderPower) == 0 || state.Now - state.StateSince >= configuration.StoppingTime)
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

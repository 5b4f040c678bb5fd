using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>From power on to the end of the warning.</summary>
internal static class ArmingSequence
{
    /// <summary>The operator's arm, or a repeat's: power on, output at stop.</summary>
    public static void Begin(ref KernelState state, ref ScanRecord record)
    {
        if (state.Repeat == 0)
            state.Repeat = 1;
        state.StepSince = state.Now;
        Sequence.Fire(ref state, Trigger.Arm, ref record);
        Enter(ref state, ArmingPhase.Preparing);
    }

    /// <summary>A repeat arms without a new act, at standstill and once nothing objects, while the start still holds.</summary>
    public static void Resume(Configuration configuration, ref KernelState state, ref ScanRecord record)
    {
        if ((state.Flags & StateFlags.Started) == 0)
            return;
        CompiledStep step = configuration.Steps[state.Step];
        if (Standstill.MayArm(configuration, state) && InterlockGate.AllProceed(configuration, state, step.Permissives))
            Begin(ref state, ref record);
        else if (state.Now - state.StepSince > configuration.LongestCoastDown + step.Timeout)
            Sequence.Trip(ref state, TripCause.Deadline, ref record);
    }

    public static void Advance(Configuration configuration, ref KernelState state, in InputImage image, ref ScanRecord record)
    {
        switch (state.Phase)
        {
            case ArmingPhase.Preparing:
                Prepare(configuration, ref state, ref record);
                break;
            case ArmingPhase.AwaitingStart when state.Now - state.PhaseSince > Configuration.StartDeadline:
                Sequence.Trip(ref state, TripCause.Deadline, ref record);
                break;
            case ArmingPhase.Warning:
                EndWarning(configuration, ref state, image, ref record);
                break;
        }
    }

    /// <summary>Goes on to the rise once the warning has had its time.</summary>
    public static void EndWarning(Configuration configuration, ref KernelState state, in InputImage image, ref ScanRecord record)
    {
        if (state.Now - state.PhaseSince < Configuration.WarningTime)
            return;
        state.Phase = ArmingPhase.None;
        Sequence.NextStep(configuration, ref state, image, ref record);
    }

    /// <summary>The operator's start, accepted only when everything is ready.</summary>
    public static void Warn(ref KernelState state)
    {
        state.Flags |= StateFlags.Started;
        Enter(ref state, ArmingPhase.Warning);
    }

    private static void Prepare(Configuration configuration, ref KernelState state, ref ScanRecord record)
    {
        CompiledStep step = configuration.Steps[state.Step];
        // Without power as well: a board has its causes reset in this time.
        bool controllerReady = state.Now - state.StateSince >= configuration.ArmingTime;
        if (controllerReady && InterlockGate.AllProceed(configuration, state, step.Permissives))
            Enter(ref state, (state.Flags & StateFlags.Started) != 0 ? ArmingPhase.Warning : ArmingPhase.AwaitingStart);
        else if (state.Now - state.StepSince > step.Timeout)
            Sequence.Trip(ref state, TripCause.Deadline, ref record);
    }

    private static void Enter(ref KernelState state, ArmingPhase phase)
    {
        if (state.State != RigState.Arming)
            return;
        state.Phase = phase;
        state.PhaseSince = state.Now;
    }
}

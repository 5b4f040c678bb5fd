using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Where the procedure goes: trips first, then the operator, then deadlines and progress.</summary>
internal static class Sequence
{
    public static void Advance(Configuration configuration, ref KernelState state, in ScanInput input, ref ScanRecord record)
    {
        if (record.NewlyLatched != 0)
            EnterSafeStop(ref state, ref record);

        Ceiling.Hold(configuration, ref state, input.Image, ref record);
        Acts.Take(configuration, ref state, input, ref record);
        switch (state.State)
        {
            case RigState.SafeStop when state.Mode == KernelMode.Verification && record.Before == RigState.SafeStop:
                Provoking.FollowStopped(configuration, ref state, input.Image, ref record);
                break;
            case RigState.Idle:
                Idle(configuration, ref state, input, ref record);
                break;
            case RigState.Arming:
                ArmingSequence.Advance(configuration, ref state, input.Image, ref record);
                break;
            case RigState.SpinUp or RigState.Hold or RigState.CoastDown:
                Work(configuration, ref state, input, ref record);
                break;
        }

        if (state.Mode == KernelMode.Verification)
            Provoking.NoteTrip(configuration, ref state, record);
    }

    /// <summary>Latches one of the kernel's own causes and stops.</summary>
    public static void Trip(ref KernelState state, TripCause cause, ref ScanRecord record)
    {
        record.NewCauses |= cause & ~state.Causes;
        state.Causes |= cause;
        state.Flags |= StateFlags.CauseNow;
        EnterSafeStop(ref state, ref record);
    }

    public static void TripIfEnergised(ref KernelState state, TripCause cause, ref ScanRecord record)
    {
        if (state.State is not (RigState.SafeStop or RigState.Idle))
            Trip(ref state, cause, ref record);
    }

    /// <summary>Fires a trigger; one that the table does not permit stops the rig.</summary>
    public static void Fire(ref KernelState state, Trigger trigger, ref ScanRecord record)
    {
        if (Transitions.Next(state.State, trigger) is not { } next)
        {
            Trip(ref state, TripCause.OutputGuard, ref record);
            return;
        }

        state.State = next;
        state.StateSince = state.Now;
        record.Fired = trigger;
    }

    /// <summary>Begins the next step; after the last one the next repeat; after the last repeat nothing.</summary>
    public static void NextStep(Configuration configuration, ref KernelState state, in InputImage image, ref ScanRecord record)
    {
        bool last = state.Step + 1 == configuration.Steps.Length;
        state.Repeat = Math.Max(state.Repeat, 1);
        if (last && state.Repeat >= configuration.Repeats)
        {
            state.Flags |= StateFlags.Finished;
            Move(ref state, StepKind.Rest, ref record);
            return;
        }

        state.Repeat += last ? 1 : 0;
        EnterStep(configuration, ref state, last ? 0 : state.Step + 1, image, ref record);
    }

    private static void EnterStep(
        Configuration configuration, ref KernelState state, int place, in InputImage image, ref ScanRecord record)
    {
        bool wasOpen = Outputs.IsGateOpen(configuration.Steps[state.Step], state);
        state.Step = place;
        state.StepSince = state.Now;
        (state.RampFrom, state.SecondRampFrom) = (state.Throttle, state.SecondThrottle);
        state.Conditions = default;
        MarkEntry(configuration, ref state);
        CompiledStep step = configuration.Steps[place];
        if (IsWork(step.Kind))
            InterlockGate.Latch(configuration, ref state, ref record);
        if (record.NewlyLatched != 0)
            EnterSafeStop(ref state, ref record);
        else if (IsWork(step.Kind) && !MayEnter(configuration, state, step))
            Trip(ref state, TripCause.Permissive, ref record);
        else if (step.PassesReceiver && !wasOpen && !Receiver.IsAtStop(configuration, image))
            Trip(ref state, TripCause.Receiver, ref record);
        else
            Move(ref state, step.Kind, ref record, step.Provocation?.Manner == ProvocationManner.ThroughGate);
    }

    /// <summary>Lights the marker where the step that was just entered asks for it.</summary>
    public static void MarkEntry(Configuration configuration, ref KernelState state)
    {
        if (configuration.Steps[state.Step].Marks)
            state.MarkUntil = state.Now + Configuration.MarkTime;
    }

    // A permissive asks for no objection at all; what runs on or comes down needs only its own permissives.
    private static bool MayEnter(Configuration configuration, in KernelState state, CompiledStep step) => step.Kind is StepKind.SpinUp or StepKind.Gate or StepKind.Provoke
        ? InterlockGate.AllProceed(configuration, state, step.Permissives)
        : InterlockGate.NoneStops(configuration, state, step.Permissives);

    private static void Move(ref KernelState state, StepKind next, ref ScanRecord record, bool throughGate = false)
    {
        Trigger trigger = (next, state.State) switch
        {
            (StepKind.SpinUp, RigState.Arming or RigState.Hold) or (StepKind.Gate or StepKind.Provoke, RigState.Arming) => Trigger.Rise,
            (StepKind.Hold, RigState.SpinUp) => Trigger.Level,
            (StepKind.Provoke, RigState.SpinUp) when !throughGate => Trigger.Level,
            (StepKind.CoastDown, RigState.SpinUp or RigState.Hold) => Trigger.Release,
            (StepKind.SpinUp or StepKind.Hold or StepKind.CoastDown or StepKind.Gate or StepKind.Provoke, _) => Trigger.None,
            (_, RigState.CoastDown) => Trigger.Rested,
            _ => Trigger.None,
        };
        if (trigger != Trigger.None)
            Fire(ref state, trigger, ref record);
    }

    private static void Idle(Configuration configuration, ref KernelState state, in ScanInput input, ref ScanRecord record)
    {
        if ((state.Flags & StateFlags.Finished) != 0)
            return;
        if ((state.Flags & StateFlags.Started) != 0 && !Guard.StayedLocked(state))
            state.Flags = (state.Flags | StateFlags.RepeatsGivenUp) & ~StateFlags.Started;

        CompiledStep step = configuration.Steps[state.Step];
        if (step.Kind == StepKind.Arm && (state.Flags & StateFlags.RepeatsGivenUp) != 0)
            state.Flags |= StateFlags.Finished;
        else if (step.Kind == StepKind.Arm)
            ArmingSequence.Resume(configuration, ref state, ref record);
        else if (Conditions.IsDone(step, ref state, input.Image))
            NextStep(configuration, ref state, input.Image, ref record);
        else if (state.Now - state.StepSince > step.Timeout)
            Trip(ref state, TripCause.Deadline, ref record);
    }

    private static void Work(Configuration configuration, ref KernelState state, in ScanInput input, ref ScanRecord record)
    {
        CompiledStep step = configuration.Steps[state.Step];
        if (state.Phase == ArmingPhase.Warning)
            ArmingSequence.EndWarning(configuration, ref state, input.Image, ref record);
        else if (Outputs.IsGateOpen(step, state) && !Receiver.GivesPulses(configuration, input.Image))
            Trip(ref state, TripCause.Receiver, ref record);
        else if (step.Kind == StepKind.Provoke)
            Provoking.Follow(configuration, ref state, input.Image, ref record);
        else if (Conditions.IsDone(step, ref state, input.Image))
            Leave(configuration, ref state, input.Image, ref record);
        else if (state.Now - state.StepSince > step.Timeout)
            Trip(ref state, TripCause.Deadline, ref record);
    }

    // A rise from a level is a rise like any other: the level is held through the warning, and the permissives come after it.
    private static void Leave(Configuration configuration, ref KernelState state, in InputImage image, ref ScanRecord record)
    {
        bool last = state.Step + 1 == configuration.Steps.Length;
        if (!last && configuration.Steps[state.Step + 1].RisesFrom(state.Throttle, state.SecondThrottle))
            (state.Phase, state.PhaseSince) = (ArmingPhase.Warning, state.Now);
        else
            NextStep(configuration, ref state, image, ref record);
    }

    private static void EnterSafeStop(ref KernelState state, ref ScanRecord record)
    {
        Standstill.NoteStop(ref state);
        state.Phase = ArmingPhase.None;
        state.Flags &= ~(StateFlags.Started | StateFlags.LidReleased | StateFlags.UnlockWanted);
        if (state.State == RigState.SafeStop)
            return;
        if (state.State != RigState.Idle)
            state.Flags |= StateFlags.StoppingUnderPower;
        Fire(ref state, Trigger.Trip, ref record);
    }

    private static bool IsWork(StepKind kind) => kind is StepKind.SpinUp or StepKind.Hold or StepKind.CoastDown or StepKind.Gate or StepKind.Provoke;
}

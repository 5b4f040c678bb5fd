using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>The operator's acts. Each gets one receipt; whatever raises energy is taken from the bench alone.</summary>
internal static class Acts
{
    public static void Take(Configuration configuration, ref KernelState state, in ScanInput input, ref ScanRecord record)
    {
        bool stopped = false;
        foreach (ref readonly Command command in input.Commands)
        {
            if (command.Kind != CommandKind.Stop)
                continue;
            TripCause cause = command.Source == CommandSource.Host ? TripCause.HostStop : TripCause.StopCommand;
            Sequence.Trip(ref state, cause, ref record);
            stopped = true;
        }

        foreach (ref readonly Command command in input.Commands)
        {
            RefusalReason refusal = command.Kind == CommandKind.Stop ? RefusalReason.None
                : stopped ? RefusalReason.Stopped
                : command.Source != CommandSource.Bench ? RefusalReason.NotFromHere
                : Take(configuration, ref state, command, input.Image, ref record);
            record.Receipts[record.ReceiptCount++] = new Receipt(command.Id, command.Kind, command.Source, refusal, command.Value);
        }
    }

    private static RefusalReason Take(
        Configuration configuration, ref KernelState state, in Command command, in InputImage image, ref ScanRecord record) => command.Kind switch
    {
        CommandKind.Reset => Reset(configuration, ref state, ref record),
        CommandKind.Arm => Arm(configuration, ref state, ref record),
        CommandKind.Start => Start(configuration, ref state),
        CommandKind.Unlock => Unlock(ref state),
        CommandKind.Lock => Lock(ref state),
        CommandKind.Look => Look(configuration, ref state),
        CommandKind.Mark => Mark(ref state),
        CommandKind.Answer => Answer(configuration, ref state, command.Value, image, ref record),
        _ => RefusalReason.NotConsidered,
    };

    private static RefusalReason Reset(Configuration configuration, ref KernelState state, ref ScanRecord record)
    {
        // What this very scan latched, nobody can have seen yet.
        if (state.State != RigState.SafeStop || record.Before != RigState.SafeStop)
            return RefusalReason.WrongState;
        if ((state.Flags & StateFlags.AtStandstill) == 0)
            return RefusalReason.NotAtStandstill;
        if ((state.Flags & StateFlags.CauseNow) != 0)
            return RefusalReason.CauseStands;
        if (state.Mode == KernelMode.Verification && Provoking.HasFailed(configuration, state))
            return RefusalReason.NotInProcedure;
        if (Provoking.IsOn(state) && (state.Causes & TripCause.Provoked) == 0)
            return RefusalReason.CauseStands;
        RefusalReason standing = LatchesStanding(configuration, state);
        if (standing != RefusalReason.None)
            return standing;
        for (int i = 0; i < configuration.Interlocks.Length; i++)
            (state.Interlocks[i].IsLatched, state.Interlocks[i].Latched) = (false, default);
        // What was provoked and seen voids nothing: the verification goes on behind it.
        int next = (state.Causes & TripCause.Provoked) != 0 ? state.Step + 1 : 0;
        state.Causes = TripCause.None;
        state.Flags &= StateFlags.AtStandstill | StateFlags.Slow | StateFlags.Looked;
        (state.Step, state.StepSince, state.Conditions) = (next, state.Now, default);
        state.Repeat = next == 0 && configuration.Steps[0].Kind == StepKind.Arm ? 0 : 1;
        Sequence.Fire(ref state, Trigger.Reset, ref record);
        Sequence.MarkEntry(configuration, ref state);
        return RefusalReason.None;
    }

    private static RefusalReason LatchesStanding(Configuration configuration, in KernelState state)
    {
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            if (!state.Interlocks[i].IsLatched)
                continue;
            if (configuration.Interlocks[i].Reset == ResetPolicy.Restart)
                return RefusalReason.NeedsRestart;
            if (state.Interlocks[i].Current.Action <= DemandAction.StopOutput)
                return RefusalReason.CauseStands;
        }

        return RefusalReason.None;
    }

    private static RefusalReason Arm(Configuration configuration, ref KernelState state, ref ScanRecord record)
    {
        // Not in the scan of the reset: each act is an answer to what the one before has shown.
        if (state.State != RigState.Idle || record.Before != RigState.Idle)
            return RefusalReason.WrongState;
        CompiledStep step = configuration.Steps[state.Step];
        if (step.Kind != StepKind.Arm || (state.Flags & (StateFlags.Finished | StateFlags.RepeatsGivenUp)) != 0)
            return RefusalReason.NotInProcedure;
        if (!Standstill.MayArm(configuration, state))
            return RefusalReason.NotAtStandstill;
        if ((state.Flags & StateFlags.UnlockWanted) != 0 || !InterlockGate.AllProceed(configuration, state, step.Permissives))
            return RefusalReason.InterlockObjects;
        ArmingSequence.Begin(ref state, ref record);
        return RefusalReason.None;
    }

    private static RefusalReason Start(Configuration configuration, ref KernelState state)
    {
        if (state.State != RigState.Arming || state.Phase != ArmingPhase.AwaitingStart)
            return RefusalReason.WrongState;
        if (!InterlockGate.AllProceed(configuration, state, configuration.Steps[state.Step].Permissives))
            return RefusalReason.InterlockObjects;
        ArmingSequence.Warn(ref state);
        return RefusalReason.None;
    }

    private static RefusalReason Unlock(ref KernelState state)
    {
        if (state.State != RigState.Idle)
            return RefusalReason.WrongState;
        if ((state.Flags & StateFlags.AtStandstill) == 0)
            return RefusalReason.NotAtStandstill;
        state.Flags |= StateFlags.UnlockWanted;
        return RefusalReason.None;
    }

    private static RefusalReason Lock(ref KernelState state)
    {
        state.Flags &= ~StateFlags.UnlockWanted;
        return RefusalReason.None;
    }

    private static RefusalReason Answer(
        Configuration configuration, ref KernelState state, double answer, in InputImage image, ref ScanRecord record)
    {
        // Not in the scan that came to the question: nobody can have read it yet.
        if (state.State != RigState.Idle || record.Before != RigState.Idle || state.StepSince == state.Now)
            return RefusalReason.WrongState;
        if (configuration.Steps[state.Step].Question is not { } question || (state.Flags & StateFlags.Finished) != 0)
            return RefusalReason.NotInProcedure;
        if (!question.Takes(answer))
            return RefusalReason.NoSuchAnswer;
        Sequence.NextStep(configuration, ref state, image, ref record);
        return RefusalReason.None;
    }

    // A look that nobody asked for says nothing: before the time is over, what seems to stand may be a turning rotor in a flickering light.
    private static RefusalReason Look(Configuration configuration, ref KernelState state)
    {
        if (!Standstill.AwaitsLook(configuration, state))
            return state.Has(StateFlags.AtStandstill) ? RefusalReason.WrongState : RefusalReason.NotRunDown;
        state.Set(StateFlags.Looked, true);
        // Whoever looks stands near: no repeat goes on by itself behind it.
        state.Set(StateFlags.Started, false);
        return RefusalReason.None;
    }

    private static RefusalReason Mark(ref KernelState state)
    {
        state.MarkUntil = state.Now + Configuration.MarkTime;
        return RefusalReason.None;
    }
}

using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>
/// A verification's faults on purpose. A provocation counts only when its evidence was seen to be absent before, when the one
/// expected cause came and no other, and when the evidence followed in time; anything else ends the verification.
/// </summary>
internal static class Provoking
{
    /// <summary>Time in a step before the host itself provokes: everything has been read several times by then.</summary>
    public static readonly TimeSpan SettleTime = TimeSpan.FromMilliseconds(300);

    /// <summary>
    /// One scan of a provoking step with the output live. Behind the gate it is a person who keeps it turning: whoever has let go before the
    /// radio is lost has shown nothing, so that the first sign must be absent up to the last moment.
    /// </summary>
    public static void Follow(Configuration configuration, ref KernelState state, in InputImage image, ref ScanRecord record)
    {
        CompiledStep step = configuration.Steps[state.Step];
        CompiledProvocation provocation = step.Provocation!;
        bool seen = Conditions.AllHold(provocation.Evidence, ref state, image);
        if (IsOn(state))
            Judge(provocation, ref state, seen, ref record);
        else if (Begins(provocation, state))
            Begin(provocation, ref state, ref record);
        else if (state.Now - state.StepSince > step.Timeout)
            Sequence.Trip(ref state, TripCause.Deadline, ref record);
        else if (provocation.Manner == ProvocationManner.ThroughGate)
            state.Set(StateFlags.Unprovoked, !state.Conditions[0].Holds);
        else if (!seen)
            state.Flags |= StateFlags.Unprovoked;
    }

    /// <summary>One scan in safe-stop: the evidence of what tripped at once is waited for here.</summary>
    public static void FollowStopped(Configuration configuration, ref KernelState state, in InputImage image, ref ScanRecord record)
    {
        if (HasFailed(configuration, state))
            state.Flags |= StateFlags.Finished;
        else if (IsOn(state) && (state.Causes & TripCause.Provoked) == 0)
            Judge(configuration.Steps[state.Step].Provocation!, ref state, Conditions.AllHold(configuration.Steps[state.Step].Provocation!.Evidence, ref state, image), ref record);
    }

    /// <summary>After a scan that tripped: whether that was the one cause expected.</summary>
    public static void NoteTrip(Configuration configuration, ref KernelState state, in ScanRecord record)
    {
        if (record.Before is RigState.SafeStop or RigState.Idle || state.State != RigState.SafeStop || IsOn(state))
            return;
        if (configuration.Steps[state.Step].Provocation is not { } provocation || (state.Flags & StateFlags.Unprovoked) == 0)
            return;
        bool latched = provocation.Expected < 0 ? record.NewlyLatched == 0 : (record.NewlyLatched & ~provocation.Consequences) == 1u << provocation.Expected;
        if (latched && record.NewCauses == provocation.ExpectedCause)
            TurnOn(ref state);
    }

    /// <summary>Whether an interlock's objection does not trip: it is what was provoked, or follows from it.</summary>
    public static bool Spares(Configuration configuration, in KernelState state, int interlock)
    {
        CompiledStep step = configuration.Steps[state.Step];
        if (step.Provocation is not { } provocation)
            return false;
        bool live = state.State is RigState.SpinUp or RigState.Hold;
        bool follows = (provocation.Consequences & (1u << interlock)) != 0 && (IsOn(state) || (live && step.Unpowered));
        // A lowered limit proves the host's own way, which must not wait.
        return follows || (interlock == provocation.Expected && live && step.Unpowered && provocation.Lowered is null);
    }

    /// <summary>The interlock to ask in a place: the one with the lowered limit while that is due.</summary>
    public static IInterlock Asked(Configuration configuration, in KernelState state, int interlock)
    {
        CompiledStep step = configuration.Steps[state.Step];
        bool lowered = step.Provocation is { Lowered: not null } provocation && provocation.LoweredPlace == interlock
            && state.State is RigState.SpinUp or RigState.Hold
            && (state.Flags & StateFlags.Unprovoked) != 0 && state.Now - state.StepSince >= SettleTime;
        return lowered ? step.Provocation!.Lowered! : configuration.Interlocks[interlock].Interlock;
    }

    /// <summary>Whether the provocation of the step is on.</summary>
    public static bool IsOn(in KernelState state) => (state.Flags & StateFlags.Provoking) != 0;

    /// <summary>Whether the power is kept off on purpose.</summary>
    public static bool KeepsPowerOff(CompiledStep step, in KernelState state) =>
        step.Unpowered || (IsOn(state) && step.Provocation?.Manner is ProvocationManner.Silence or ProvocationManner.PowerCut);

    /// <summary>Whether the demand is kept at what it was; else the output is at stop.</summary>
    public static bool KeepsDemand(CompiledStep step, in KernelState state) => step.Provocation!.Manner switch
    {
        ProvocationManner.Awaited or ProvocationManner.PowerCut => true,
        ProvocationManner.Silence or ProvocationManner.CeasedPulses => !IsOn(state),
        _ => false,
    };

    /// <summary>Whether anything stands that nobody expected.</summary>
    public static bool HasFailed(Configuration configuration, in KernelState state)
    {
        CompiledProvocation? provocation = configuration.Steps[state.Step].Provocation;
        uint expected = provocation is null ? 0 : provocation.Consequences | (provocation.Expected < 0 ? 0 : 1u << provocation.Expected);
        TripCause cause = provocation is null ? TripCause.None : provocation.ExpectedCause | TripCause.Provoked;
        bool caused = IsOn(state);
        return (state.Causes & ~(caused ? cause : TripCause.None)) != 0 || (InterlockGate.LatchedMask(configuration, state) & ~(caused ? expected : 0)) != 0;
    }

    private static bool Begins(CompiledProvocation provocation, in KernelState state) => provocation.Manner switch
    {
        ProvocationManner.Awaited => provocation.Expected >= 0 && state.Interlocks[provocation.Expected].Current.Action <= DemandAction.StopOutput,
        ProvocationManner.ThroughGate => false,
        _ => state.Now - state.StepSince >= SettleTime,
    };

    // What was so already proves nothing; only of rest is that the very point.
    private static void Begin(CompiledProvocation provocation, ref KernelState state, ref ScanRecord record)
    {
        if (provocation.Manner != ProvocationManner.Rest && (state.Flags & StateFlags.Unprovoked) == 0)
            Sequence.Trip(ref state, TripCause.Unanswered, ref record);
        else
            TurnOn(ref state);
    }

    private static void TurnOn(ref KernelState state)
    {
        state.Flags |= StateFlags.Provoking;
        (state.PhaseSince, state.Conditions) = (state.Now, default);
    }

    private static void Judge(CompiledProvocation provocation, ref KernelState state, bool seen, ref ScanRecord record)
    {
        if (seen)
            Sequence.Trip(ref state, TripCause.Provoked, ref record);
        else if (state.Now - state.PhaseSince > provocation.Allowed)
            Sequence.Trip(ref state, TripCause.Unanswered, ref record);
    }
}

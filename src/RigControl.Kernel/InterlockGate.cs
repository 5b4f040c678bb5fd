using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>Asks every interlock, every scan, and latches what trips. Always all of them, so that every reason shows.</summary>
internal static class InterlockGate
{
    /// <summary>Reason number of a demand that the kernel wrote because the interlock threw, or asked for no action there is.</summary>
    public const ushort Threw = ushort.MaxValue;

    public static void Evaluate(Configuration configuration, ref KernelState state, in ScanInput input, ref ScanRecord record)
    {
        bool gate = Outputs.IsGateOpen(configuration.Steps[state.Step], state);
        InterlockInput question = new(input.Image, input.Now, state.State, state.Step, input.Now - state.StepSince, state.Throttle, gate,
            Provoking.KeepsPowerOff(configuration.Steps[state.Step], state));
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            ref InterlockSlot slot = ref state.Interlocks[i];
            Ask(Provoking.Asked(configuration, state, i), question, ref slot);
            record.Demands[i] = slot.Current;
        }

        Latch(configuration, ref state, ref record);
    }

    /// <summary>
    /// Latches what trips now: in the scan's own turn, and once more when a step is entered in which others count.
    /// The first demand is kept, since it is the cause.
    /// </summary>
    public static void Latch(Configuration configuration, ref KernelState state, ref ScanRecord record)
    {
        uint counting = Counting(configuration, state);
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            ref InterlockSlot slot = ref state.Interlocks[i];
            bool counts = (counting & (1u << i)) != 0 && Trips(state, slot.Current.Action) && !Provoking.Spares(configuration, state, i);
            if (slot.IsLatched || !(counts || slot.Current.Reason == Threw))
                continue;
            slot.Latched = slot.Current;
            slot.IsLatched = true;
            record.NewlyLatched |= 1u << i;
        }
    }

    /// <summary>Whether every interlock that counts now, or is asked for by <paramref name="also"/>, has no objection at all.</summary>
    public static bool AllProceed(Configuration configuration, in KernelState state, uint also) =>
        AllAtLeast(DemandAction.Proceed, configuration, state, also);

    /// <summary>Whether none of them asks for a stop; a refusal to start does not count.</summary>
    public static bool NoneStops(Configuration configuration, in KernelState state, uint also) =>
        AllAtLeast(DemandAction.Refuse, configuration, state, also);

    /// <summary>Interlocks that count in the current step, one bit each.</summary>
    public static uint Counting(Configuration configuration, in KernelState state) =>
        configuration.AlwaysCounting | configuration.Steps[state.Step].Counting;

    public static uint LatchedMask(Configuration configuration, in KernelState state)
    {
        uint mask = 0;
        for (int i = 0; i < configuration.Interlocks.Length; i++)
            mask |= state.Interlocks[i].IsLatched ? 1u << i : 0;
        return mask;
    }

    private static bool AllAtLeast(DemandAction action, Configuration configuration, in KernelState state, uint also)
    {
        uint asked = Counting(configuration, state) | also;
        for (int i = 0; i < configuration.Interlocks.Length; i++)
        {
            if ((asked & (1u << i)) != 0 && state.Interlocks[i].Current.Action < action)
                return false;
        }

        return true;
    }

    private static void Ask(IInterlock interlock, in InterlockInput question, ref InterlockSlot slot)
    {
        try
        {
            slot.Current = interlock.Evaluate(question, ref slot.Memory);
        }
#pragma warning disable CA1031 // An interlock that fails in any way must trip, never end the scan.
        catch (Exception)
#pragma warning restore CA1031
        {
            slot.Current = Failed(question);
        }

        if (slot.Current.Action > DemandAction.Proceed)
            slot.Current = Failed(question);
    }

    private static Demand Failed(in InterlockInput question) =>
        Demand.Object(DemandAction.CutPower, Threw, -1, 0, 0, 0, question.Now);

    // Standing still with nothing energised, an open lid is everyday; running or running down, it is a trip.
    private static bool Trips(in KernelState state, DemandAction action)
    {
        bool mayTurn = (state.Flags & StateFlags.MayTurn) != 0;
        return state.State switch
        {
            RigState.Idle => mayTurn && action <= DemandAction.StopOutput,
            RigState.SafeStop => mayTurn && action == DemandAction.CutPower,
            _ => action <= DemandAction.StopOutput,
        };
    }
}

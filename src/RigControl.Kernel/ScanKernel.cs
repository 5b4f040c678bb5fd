using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>
/// One scan: read the input image, decide, write the output image. A pure function of its arguments: the same
/// configuration, state and input give the same state and record, bit for bit.
/// </summary>
public static class ScanKernel
{
    public static void Scan(Configuration configuration, ref KernelState state, in ScanInput input, ref ScanRecord record)
    {
        Open(configuration, ref state, input, ref record);
        Standstill.Follow(configuration, ref state, input.Image);
        Guard.Follow(configuration, ref state, input.Image);
        InterlockGate.Evaluate(configuration, ref state, input, ref record);
        Sequence.Advance(configuration, ref state, input, ref record);
        OutputImage outputs = Outputs.Of(configuration, ref state);
        if (!OutputGuard.Permits(configuration, state, outputs))
        {
            // Not asked for again: whoever was wrong once may be wrong twice.
            Sequence.Trip(ref state, TripCause.OutputGuard, ref record);
            state.Flags &= ~StateFlags.StoppingUnderPower;
            outputs = OutputGuard.Stopped(configuration);
        }

        Close(configuration, ref state, outputs, ref record);
    }

    private static void Open(Configuration configuration, ref KernelState state, in ScanInput input, ref ScanRecord record)
    {
        record.Scan = ++state.Scan;
        record.Now = input.Now;
        record.Before = state.State;
        record.Fired = Trigger.None;
        record.NewCauses = TripCause.None;
        record.NewlyLatched = 0;
        record.ReceiptCount = 0;
        record.InterlockCount = (byte)configuration.InterlockCount;
        state.Mode = configuration.Mode;
        if (state.Scan == 1)
            (state.Now, state.StateSince, state.StepSince, state.LastEnergised, state.PowerSeen) = (input.Now, input.Now, input.Now, input.Now, input.Now);
        else
            Schedule.Follow(configuration, ref state, input.Now, ref record);
    }

    private static void Close(Configuration configuration, ref KernelState state, in OutputImage outputs, ref ScanRecord record)
    {
        (state.Throttle, state.SecondThrottle) = (outputs.Throttle, outputs.SecondThrottle);
        Standstill.Note(ref state, outputs);
        state.Flags &= ~StateFlags.CauseNow;
        record.Outputs = outputs;
        record.State = state.State;
        record.Phase = state.Phase;
        record.Step = state.Step;
        record.Repeat = state.Repeat;
        record.Causes = state.Causes;
        record.Finished = (state.Flags & StateFlags.Finished) != 0;
        record.AtStandstill = (state.Flags & StateFlags.AtStandstill) != 0;
        record.AwaitsLook = Standstill.AwaitsLook(configuration, state);
        record.Latched = InterlockGate.LatchedMask(configuration, state);
        record.StateHash = StateHash.Of(configuration, ref state);
    }
}

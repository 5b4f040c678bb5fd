using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>
/// What stands in for the failsafe proof in a verification: above this speed, with a speed that cannot be read under power, or with a
/// stick above this throttle while it drives, the power is cut.
/// </summary>
internal static class Ceiling
{
    public static void Hold(Configuration configuration, ref KernelState state, in InputImage image, ref ScanRecord record)
    {
        if (configuration.Ceiling is not { } ceiling || state.State is RigState.SafeStop or RigState.Idle)
            return;
        ref readonly ImageEntry speed = ref image[configuration.SpeedChannel];
        bool unread = !speed.IsUsable && !configuration.Steps[state.Step].Unpowered;
        bool above = speed.IsUsable && !(speed.Maximum <= ceiling.Speed && speed.Minimum >= -ceiling.Speed);
        bool pushed = Outputs.IsGateOpen(configuration.Steps[state.Step], state) && Receiver.IsBeyond(ceiling.Throttle, configuration, image);
        if (unread || above || pushed)
            Sequence.Trip(ref state, TripCause.VerificationCeiling, ref record);
    }
}

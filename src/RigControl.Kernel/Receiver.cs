using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>
/// What must be so before and while the receiver drives. The gate opens only on a stick at stop, so that nothing jumps; and
/// a receiver that falls silent is a lost radio, whatever the controller does without pulses.
/// </summary>
internal static class Receiver
{
    public static bool IsAtStop(Configuration configuration, in InputImage image)
    {
        if (configuration.ReceiverChannel < 0)
            return false;
        ref readonly ImageEntry pulse = ref image[configuration.ReceiverChannel];
        return pulse.IsUsable
            && pulse.Minimum >= configuration.StopPulse - Configuration.StickAtStop
            && pulse.Maximum <= configuration.StopPulse + Configuration.StickAtStop;
    }

    public static bool GivesPulses(Configuration configuration, in InputImage image)
    {
        if (configuration.ReceiverChannel < 0)
            return false;
        ref readonly ImageEntry pulse = ref image[configuration.ReceiverChannel];
        return pulse.IsUsable && pulse.Minimum > 0;
    }
}

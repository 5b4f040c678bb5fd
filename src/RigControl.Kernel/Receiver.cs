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

    /// <summary>Whether the stick is further from stop, to either side, than a throttle is; a stick at stop never is.</summary>
    public static bool IsBeyond(double throttle, Configuration configuration, in InputImage image)
    {
        if (!GivesPulses(configuration, image))
            return false;
        ref readonly ImageEntry pulse = ref image[configuration.ReceiverChannel];
        double most = Math.Max(configuration.ReachOf(throttle), Configuration.StickAtStop) + Configuration.ReceiverResolution;
        return pulse.Minimum < configuration.StopPulse - most || pulse.Maximum > configuration.StopPulse + most;
    }
}

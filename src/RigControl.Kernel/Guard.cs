using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>What the kernel itself knows of lid and lock: whether the enclosure stayed shut between two repeats.</summary>
internal static class Guard
{
    /// <summary>
    /// Whether nobody can have reached in: the release was not asked for and the bolt reads home, or, without a bolt to read,
    /// the lid reads closed. A rig that can read neither has not stayed locked.
    /// </summary>
    public static bool StayedLocked(Configuration configuration, in KernelState state, in InputImage image)
    {
        int channel = configuration.LockChannel >= 0 ? configuration.LockChannel : configuration.LidChannel;
        if (channel < 0 || (state.Flags & StateFlags.UnlockWanted) != 0)
            return false;
        ref readonly ImageEntry entry = ref image[channel];
        return entry.IsUsable && entry.Minimum == 1;
    }
}

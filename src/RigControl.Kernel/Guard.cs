using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>What the kernel itself knows of lid and lock: whether the enclosure stayed shut from the start to the next repeat.</summary>
internal static class Guard
{
    /// <summary>Notes, scan by scan, that the lid can have been opened since the start.</summary>
    public static void Follow(Configuration configuration, ref KernelState state, in InputImage image)
    {
        if ((state.Flags & StateFlags.Started) != 0 && !IsShut(configuration, image))
            state.Flags |= StateFlags.LidReleased;
    }

    /// <summary>Whether nobody can have reached in: every reading since the start was shut, and the release was not asked for.</summary>
    public static bool StayedLocked(in KernelState state) => (state.Flags & (StateFlags.LidReleased | StateFlags.UnlockWanted)) == 0;

    // Of bolt and lid, what the rig can read must read shut. A rig that can read neither is never shut.
    private static bool IsShut(Configuration configuration, in InputImage image)
    {
        bool any = configuration.LockChannel >= 0 || configuration.LidChannel >= 0;
        return any && ReadsOne(configuration.LockChannel, image) && ReadsOne(configuration.LidChannel, image);
    }

    private static bool ReadsOne(int channel, in InputImage image)
    {
        if (channel < 0)
            return true;
        ref readonly ImageEntry entry = ref image[channel];
        return entry.IsUsable && entry.Minimum == 1;
    }
}

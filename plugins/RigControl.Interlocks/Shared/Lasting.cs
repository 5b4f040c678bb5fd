using RigControl.Model.Rig;

namespace RigControl.Interlocks.Shared;

/// <summary>Measures how long a limit has been passed without a break. Uses Since and Flags of the memory.</summary>
internal static class Lasting
{
    private const long Running = 1;

    /// <summary>Whether the limit has now been passed for at least <paramref name="length"/>; a length of zero is reached at once.</summary>
    /// <param name="passed">Whether the worst reading since the last scan is past the limit.</param>
    /// <param name="shownAt">When that reading was taken.</param>
    public static bool Reached(bool passed, TimeSpan shownAt, TimeSpan now, TimeSpan length, ref InterlockMemory memory)
    {
        if (!passed)
        {
            memory = default;
            return false;
        }

        if (memory.Flags != Running)
            (memory.Flags, memory.Since) = (Running, Stamp.Between(TimeSpan.Zero, shownAt, now));
        return now - memory.Since >= length;
    }
}

using RigControl.Runtime.Platform;

namespace RigControl.Runtime.Scanning;

/// <summary>Minds that no plugin starts threads without end: they cannot be ended from outside, and take the scan's time.</summary>
internal sealed class ThreadWatch(Func<int?> count)
{
    /// <summary>Threads more than at the start of the run that count as a leak: ten times what a rig with every device has.</summary>
    public const int MostNew = 256;

    // The number at the first look.
    private int? _first;

    public ThreadWatch()
        : this(ScanThread.ThreadCount)
    {
    }

    /// <summary>The sentence, once there are too many; null before.</summary>
    public string? Leak { get; private set; }

    public void Look()
    {
        if (Leak is not null || count() is not { } now)
            return;
        _first ??= now;
        if (now - _first > MostNew)
            Leak = $"this program has {now} threads, {now - _first} more than when the run began: a plugin starts them without end; take out the one that was added last";
    }
}

using System.Runtime.InteropServices;

namespace RigControl.Runtime.Platform;

/// <summary>
/// The only place bound to an operating system: sleeping to an absolute time, a real-time priority and locked memory on
/// Linux; elsewhere, or where the right is missing, ordinary sleeping and priority, and a word of it.
/// </summary>
internal static partial class ScanThread
{
    private const int Monotonic = 1;
    private const int AbsoluteTime = 1;
    private const int Fifo = 1;
    private const int Current = 1;
    private const int Future = 2;

    /// <summary>Asks for the best scheduling there is for the calling thread. Returns what could not be had, for the record.</summary>
    public static IReadOnlyList<string> Prepare()
    {
        Thread.CurrentThread.Priority = ThreadPriority.Highest;
        if (!OperatingSystem.IsLinux())
            return ["real-time scheduling is set up on Linux only"];
        List<string> missing = [];
        SchedulingParameters parameters = new() { Priority = 40 };
        if (SetScheduler(0, Fifo, parameters) != 0)
            missing.Add("no right to a real-time priority; the scan may be late under load");
        if (LockMemory(Current | Future) != 0)
            missing.Add("no right to lock memory; the scan may be late when memory is short");
        return missing;
    }

    /// <summary>Now on the clock that <see cref="SleepUntil"/> sleeps by, in nanoseconds.</summary>
    public static long Now()
    {
        if (!OperatingSystem.IsLinux())
            return (long)(System.Diagnostics.Stopwatch.GetTimestamp() * (1e9 / System.Diagnostics.Stopwatch.Frequency));
        _ = GetTime(Monotonic, out TimeSpec time);
        return time.Seconds * 1_000_000_000 + time.Nanoseconds;
    }

    /// <summary>Returns at <paramref name="deadline"/>, or at once when it has passed.</summary>
    public static void SleepUntil(long deadline)
    {
        if (!OperatingSystem.IsLinux())
        {
            SleepCoarsely(deadline);
            return;
        }

        TimeSpec time = new() { Seconds = deadline / 1_000_000_000, Nanoseconds = deadline % 1_000_000_000 };
        while (Sleep(Monotonic, AbsoluteTime, time, nint.Zero) != 0 && Now() < deadline)
        {
            // A signal woke the thread early; the time is absolute, so that sleeping again loses nothing.
        }
    }

    /// <summary>Threads of this process, or null where the system does not tell cheaply.</summary>
    public static int? ThreadCount() => OperatingSystem.IsLinux() ? Directory.GetDirectories("/proc/self/task").Length : null;

    private static void SleepCoarsely(long deadline)
    {
        long left = deadline - Now();
        if (left > 2_000_000)
            Thread.Sleep((int)(left / 1_000_000) - 1);
        while (Now() < deadline)
            Thread.SpinWait(50);
    }

    [LibraryImport("libc", EntryPoint = "clock_gettime")]
    private static partial int GetTime(int clock, out TimeSpec time);

    [LibraryImport("libc", EntryPoint = "clock_nanosleep")]
    private static partial int Sleep(int clock, int flags, in TimeSpec request, nint remaining);

    [LibraryImport("libc", EntryPoint = "sched_setscheduler")]
    private static partial int SetScheduler(int process, int policy, in SchedulingParameters parameters);

    [LibraryImport("libc", EntryPoint = "mlockall")]
    private static partial int LockMemory(int flags);

    [StructLayout(LayoutKind.Sequential)]
    private struct TimeSpec
    {
        public long Seconds;
        public long Nanoseconds;
    }

    [StructLayout(LayoutKind.Sequential)]
    private struct SchedulingParameters
    {
        public int Priority;
    }
}

namespace RigControl.Runtime.Tests.Scanning;

/// <summary>Threads that are started without end are noticed, and those of a rig that works are not.</summary>
public class ThreadWatchTests
{
    [Fact]
    public void More_threads_than_any_rig_has_are_told_with_their_number()
    {
        int count = 30;
        ThreadWatch watch = new(() => count);
        watch.Look();
        count += ThreadWatch.MostNew;
        watch.Look();
        Assert.Null(watch.Leak);

        count++;
        watch.Look();

        Assert.StartsWith("this program has 287 threads, 257 more than when the run began", watch.Leak, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_the_system_does_not_tell_nothing_is_said()
    {
        ThreadWatch watch = new(() => null);
        watch.Look();
        watch.Look();
        Assert.Null(watch.Leak);
    }

    [Fact]
    public void What_was_told_once_stays_told()
    {
        int count = 0;
        ThreadWatch watch = new(() => count);
        watch.Look();
        count = 1000;
        watch.Look();
        string? told = watch.Leak;
        count = 0;
        watch.Look();
        Assert.NotNull(told);
        Assert.Equal(told, watch.Leak);
    }
}

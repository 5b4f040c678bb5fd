namespace RigControl.Runtime.Scanning;

/// <summary>
/// Where the scan is while it is in code that is not ours. The scan says whom it asks and that it was answered; a supervisor
/// looks at it from outside. Once the supervisor has given the scan up, an answer that comes after all leads nowhere: the
/// scan's thread is parked, so that what it held may be handled by whoever ends the session.
/// </summary>
internal sealed class ScanPost
{
    private string? _asked;
    private long _questions;
    private int _thread;
    private volatile bool _givenUp;

    /// <summary>Whether the calling thread is the one that scans; what others ask is not watched.</summary>
    public bool IsHere => Environment.CurrentManagedThreadId == _thread;

    /// <summary>Who is being asked, and the how-manieth question it is; a null name while nobody is.</summary>
    public (string? Asked, long Question) Standing => (Volatile.Read(ref _asked), Volatile.Read(ref _questions));

    /// <summary>Says that the calling thread is the one that scans.</summary>
    public void Take() => _thread = Environment.CurrentManagedThreadId;

    /// <summary>Says who is asked now, such as <c>the interlock lid-closed</c>.</summary>
    public void Ask(string who)
    {
        _questions++;
        Volatile.Write(ref _asked, who);
    }

    /// <summary>Says that the answer has come. Does not return where the scan has been given up meanwhile.</summary>
    public void Answered()
    {
        Volatile.Write(ref _asked, null);
        if (_givenUp)
            Thread.Sleep(Timeout.Infinite);
    }

    /// <summary>
    /// Gives the scan up. Returns who is being asked: then the scan's thread is out of the way for good. Null when the answer
    /// has just come: then it goes on until it asks somebody again.
    /// </summary>
    public string? GiveUp()
    {
        _givenUp = true;
        // Makes every thread see the mark before the post is read: a scan that was answered since is seen, or is parked.
        Interlocked.MemoryBarrierProcessWide();
        return Volatile.Read(ref _asked);
    }
}

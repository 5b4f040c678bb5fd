namespace RigControl.Runtime.Scanning;

/// <summary>
/// Looks at the scan from a thread of its own. Code that is not ours and does not come back cannot be ended, only named: then
/// the scan is given up and the session ended from here. Time is counted in looks, not read from a clock, so that a process
/// that was suspended, or a machine that slept, is not taken for one that hangs.
/// </summary>
internal sealed class Supervisor : IDisposable
{
    /// <summary>Time between two looks: a tenth of what is allowed.</summary>
    public static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(50);

    /// <summary>Looks in a row that may find the same question unanswered: half a second, as long as a device may take.</summary>
    public const int GlancesAllowed = 10;

    /// <summary>How long code that is not ours may take.</summary>
    public static TimeSpan Deadline => Glance * GlancesAllowed;

    /// <summary>Looks between two counts of the threads: one second.</summary>
    public const int GlancesPerCount = 20;

    private readonly ScanPost _post;
    private readonly Action<string> _onHung;
    private readonly ManualResetEventSlim _ending = new();
    private readonly Thread _thread;
    private long _question = -1;
    private int _glances;
    private long _looks;

    /// <param name="post">Where the scan says what it does.</param>
    /// <param name="onHung">Hears, on the supervisor's thread and once, who hangs. The scan has been given up before.</param>
    public Supervisor(ScanPost post, Action<string> onHung)
    {
        (_post, _onHung) = (post, onHung);
        _thread = new Thread(Watch) { Name = "supervisor", IsBackground = true, Priority = ThreadPriority.AboveNormal };
    }

    /// <summary>How many threads there are.</summary>
    public ThreadWatch Threads { get; } = new();

    public void Start() => _thread.Start();

    public void Dispose()
    {
        _ending.Set();
        if (_thread.IsAlive)
            _thread.Join();
        _ending.Dispose();
    }

    /// <summary>One look. Returns who hangs, or null.</summary>
    internal string? Look()
    {
        (string? asked, long question) = _post.Standing;
        _glances = asked is not null && question == _question ? _glances + 1 : 0;
        _question = question;
        return _glances >= GlancesAllowed ? _post.GiveUp() : null;
    }

    private void Watch()
    {
        while (!_ending.Wait(Glance))
        {
            if (_looks++ % GlancesPerCount == 0)
                Threads.Look();
            if (Look() is not { } who)
                continue;
            _onHung(who);
            return;
        }
    }
}

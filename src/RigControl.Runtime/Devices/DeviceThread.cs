using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Platform;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Devices;

/// <summary>
/// One device on a thread of its own: it may wait as long as it likes, the scan goes on. Samples travel through a buffer
/// that the scan empties, outputs through a mailbox that holds the latest.
/// </summary>
internal sealed class DeviceThread
{
    // With this many samples waiting, somebody has stopped emptying the buffer: the device counts as flooding.
    private const int MostWaiting = 65536;
    private const long NanosecondsInMillisecond = 1_000_000;

    private readonly HostedDevice _device;
    private readonly SessionClock _clock;
    private readonly TimeSpan _oldestOutputs;
    private readonly Lock _lock = new();
    private readonly AutoResetEvent _said = new(false);
    private readonly SampleBuffer _waiting = new();
    private readonly Thread _thread;
    private OutputImage _outputs;
    private long _outputsScan;
    private TimeSpan _outputsAt;
    private (long Scan, TimeSpan At) _applied;
    private volatile bool _ending;

    /// <param name="oldestOutputs">
    /// Age from which outputs are not passed on any more: a scan that hangs must not be kept alive by its last word, so that the
    /// device falls silent and its actuator stops by itself.
    /// </param>
    public DeviceThread(HostedDevice device, SessionClock clock, TimeSpan oldestOutputs)
    {
        (_device, _clock, _oldestOutputs) = (device, clock, oldestOutputs);
        _device.Watched = true;
        _thread = new Thread(Run) { Name = "device " + device.Id, IsBackground = true };
    }

    /// <summary>The latest scan whose outputs the device has taken, and when.</summary>
    public (long Scan, TimeSpan At) Applied
    {
        get
        {
            lock (_lock)
                return _applied;
        }
    }

    public void Start() => _thread.Start();

    /// <summary>Puts the outputs of a scan into the mailbox.</summary>
    public void Put(long scan, in OutputImage outputs)
    {
        lock (_lock)
            (_outputs, _outputsScan, _outputsAt) = (outputs, scan, _clock.Now);
        _said.Set();
    }

    /// <summary>Hands the waiting samples over, and asks whether the device still answers.</summary>
    public void Empty(int place, ScanCycle into)
    {
        _device.LoseIfHung();
        lock (_lock)
        {
            into.TakeIn(place, _waiting.Samples);
            _waiting.Clear();
        }
    }

    /// <summary>Ends the thread after one more Apply. One that does not come back is left behind.</summary>
    public void End()
    {
        _ending = true;
        _said.Set();
        if (_thread.IsAlive)
            _thread.Join(TimeSpan.FromSeconds(1));
    }

    private void Run()
    {
        long period = _device.ReadPeriod.Ticks * 100;
        long due = ScanThread.Now();
        while (!_ending && _device.Lost is null)
        {
            Apply();
            Read();
            // On an absolute schedule, so that the rate is kept; what was missed by more than a period is not caught up with.
            due = Math.Max(due + period, ScanThread.Now() - period);
            ApplyUntil(due);
        }

        Apply();
    }

    // Outputs are passed on as soon as a scan has said them. Waiting knows whole milliseconds only: a reading may come up to
    // one later than it is due.
    private void ApplyUntil(long due)
    {
        while (!_ending && _device.Lost is null && due - ScanThread.Now() is > 0 and var left)
        {
            if (_said.WaitOne((int)(left / NanosecondsInMillisecond) + 1))
                Apply();
        }
    }

    private void Apply()
    {
        OutputImage outputs;
        long scan;
        TimeSpan age;
        lock (_lock)
            (outputs, scan, age) = (_outputs, _outputsScan, _clock.Now - _outputsAt);
        // Before the first scan nobody has said what to put out, and no pulse at all is not what a controller expects.
        if (scan == 0 || age > _oldestOutputs || outputs.Silent)
            return;
        _device.Apply(_clock.Now, outputs);
        // A device that failed has not taken them, and must not stand as proof that the stop output was out.
        if (_device.Lost is not null)
            return;
        lock (_lock)
            _applied = (scan, _clock.Now);
    }

    private void Read()
    {
        _device.Read(_clock.Now);
        lock (_lock)
        {
            if (_waiting.Count < MostWaiting)
                _waiting.Add(_device.Intake.Samples.Samples);
            else
                _device.Lose($"more than {MostWaiting} of its samples wait to be read");
        }

        _device.Intake.Samples.Clear();
    }
}

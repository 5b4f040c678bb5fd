using RigControl.Contracts;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Platform;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Scanning;

/// <summary>The scan on the real clock: a thread that wakes on an absolute schedule, and a thread for every device.</summary>
internal sealed class RealTime(AssembledRig rig, SessionClock clock)
{
    /// <summary>Longest time that a sample waits in the scan's hands before it goes to the recorder: what a hang of the scan itself may cost of the record.</summary>
    private static readonly TimeSpan HandOnAfter = TimeSpan.FromMilliseconds(50);

    // All but the host, which the scan itself reads.
    private readonly List<DeviceThread> _threads = [.. rig.Devices.SkipLast(1).Select(d => new DeviceThread(d, clock, rig.Configuration.LongestGap))];
    private readonly HostedDevice _host = rig.Devices[^1];
    private TimeSpan _handedOn;

    /// <summary>Hears how late each scan woke, on the scan's thread; for measurements.</summary>
    public Action<TimeSpan>? OnWake { get; init; }

    /// <summary>Runs on a thread of its own until <paramref name="isOver"/> says so; returns when every thread has ended.</summary>
    public void Run(ScanCycle cycle, LostDevices lost, Func<bool> isOver)
    {
        Exception? failure = null;
        Thread scan = new(() => failure = Guarded(cycle, lost, isOver)) { Name = "scan", IsBackground = true };
        scan.Start();
        scan.Join();
        if (failure is not null)
            throw new InvalidOperationException("the scan failed: " + failure.Message, failure);
    }

    /// <summary>When every device that drives the output had taken the outputs of a scan; null while one has not, or where none drives it.</summary>
    public TimeSpan? OutAt(long scan)
    {
        TimeSpan? latest = null;
        for (int i = 0; i < _threads.Count; i++)
        {
            if (!rig.Devices[i].Traits.HasFlag(DeviceTraits.DrivesOutput))
                continue;
            (long applied, TimeSpan at) = _threads[i].Applied;
            if (applied < scan)
                return null;
            latest = latest > at ? latest : at;
        }

        return latest;
    }

    private Exception? Guarded(ScanCycle cycle, LostDevices lost, Func<bool> isOver)
    {
        try
        {
            Scan(cycle, lost, isOver);
            return null;
        }
#pragma warning disable CA1031 // Outputs go to stop before anybody hears of it.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return e;
        }
        finally
        {
            End(cycle);
        }
    }

    private void Scan(ScanCycle cycle, LostDevices lost, Func<bool> isOver)
    {
        foreach (string missing in ScanThread.Prepare())
            cycle.Note(new RigEvent(clock.Now, 0, EventNames.DeviceNote, HostDevice.Id, missing, new Dictionary<string, object>()));
        rig.Post.Take();
        _threads.ForEach(t => t.Start());
        long period = rig.Configuration.ScanPeriod.Ticks * 100;
        long due = ScanThread.Now();
        while (!isOver())
        {
            due += period;
            ScanThread.SleepUntil(due);
            long late = ScanThread.Now() - due;
            rig.Host.NoteLateness(TimeSpan.FromTicks(late / 100));
            OnWake?.Invoke(TimeSpan.FromTicks(late / 100));
            Tick(cycle, lost);
            // After a stall the schedule starts again from here: catching up would only run scans on old inputs.
            if (late > period)
                due = ScanThread.Now();
        }
    }

    private void Tick(ScanCycle cycle, LostDevices lost)
    {
        for (int i = 0; i < _threads.Count; i++)
            _threads[i].Empty(i, cycle);
        TimeSpan now = clock.Now;
        _host.Read(now);
        cycle.TakeIn(_threads.Count, _host.Intake.Samples.Samples);
        _host.Intake.Samples.Clear();
        lost.Follow(now);
        OutputImage outputs = cycle.Scan(now);
        foreach (DeviceThread thread in _threads)
            thread.Put(cycle.ScanNumber, outputs);
        if (now - _handedOn < HandOnAfter && !cycle.IsUrgent)
            return;
        _handedOn = now;
        cycle.HandOn();
    }

    /// <summary>
    /// The last thing every device hears is stop, power off and locked, at the article's own stop pulse. Called by a supervisor
    /// too, in place of a scan that has been given up.
    /// </summary>
    public void StopDevices()
    {
        OutputImage stop = new() { Pulse = rig.Configuration.StopPulse, SecondPulse = rig.Configuration.SecondStopPulse };
        foreach (DeviceThread thread in _threads)
            thread.Put(long.MaxValue, stop);
        _threads.ForEach(t => t.End());
    }

    private void End(ScanCycle cycle)
    {
        StopDevices();
        cycle.TellRest(clock.Now);
        cycle.HandOn();
    }
}

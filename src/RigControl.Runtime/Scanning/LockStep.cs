using System.Diagnostics;
using RigControl.Model.Rig;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Scanning;

/// <summary>
/// One thread does everything on a virtual clock: scan n happens at n periods. Devices are read in order of their id, so that
/// the same seed gives the same run at every pace.
/// </summary>
internal sealed class LockStep(AssembledRig rig, ScanCycle cycle, LostDevices lost, double? pace)
{
    /// <summary>Runs until <paramref name="isOver"/> says so, asked before every scan.</summary>
    public void Run(Func<bool> isOver)
    {
        TimeSpan now = TimeSpan.Zero;
        rig.Post.Take();
        try
        {
            long began = Stopwatch.GetTimestamp();
            while (!isOver())
            {
                now += rig.Configuration.ScanPeriod;
                Tick(now);
                if (pace is { } factor)
                    WaitFor(began, now / factor);
            }
        }
        finally
        {
            End(now);
        }
    }

    private void Tick(TimeSpan now)
    {
        IReadOnlyList<HostedDevice> devices = rig.Devices;
        for (int i = 0; i < devices.Count; i++)
        {
            HostedDevice device = devices[i];
            rig.Post.Ask(device.Name);
            device.Read(now);
            rig.Post.Answered();
            cycle.TakeIn(i, device.Intake.Samples.Samples);
            device.Intake.Samples.Clear();
        }

        lost.Follow(now);
        OutputImage outputs = cycle.Scan(now);
        Apply(now, outputs);
    }

    // The last thing every device hears is stop, power off and locked, at the article's own stop pulse.
    private void End(TimeSpan now)
    {
        OutputImage stop = new() { Pulse = rig.Configuration.StopPulse, SecondPulse = rig.Configuration.SecondStopPulse };
        Apply(now, stop);
        cycle.HandOn();
    }

    private void Apply(TimeSpan now, in OutputImage outputs)
    {
        if (outputs.Silent)
            return;
        IReadOnlyList<HostedDevice> devices = rig.Devices;
        for (int i = 0; i < devices.Count; i++)
        {
            rig.Post.Ask(devices[i].Name);
            devices[i].Apply(now, outputs);
            rig.Post.Answered();
        }
    }

    private void WaitFor(long began, TimeSpan due)
    {
        TimeSpan ahead = due - Stopwatch.GetElapsedTime(began);
        if (ahead < TimeSpan.FromMilliseconds(20))
            return;
        cycle.HandOn();
        Thread.Sleep(ahead);
    }
}

using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Devices;

namespace RigControl.Runtime.Scanning;

/// <summary>Stops the rig for a device that was lost, says so once, and keeps it stopped: a lost device does not come back.</summary>
internal sealed class LostDevices(IReadOnlyList<HostedDevice> devices, ScanCycle cycle)
{
    /// <summary>The first reason, or null while all serve.</summary>
    public string? First { get; private set; }

    private readonly bool[] _told = new bool[devices.Count];

    public void Follow(TimeSpan now)
    {
        for (int i = 0; i < devices.Count; i++)
        {
            if (devices[i].Lost is not { } reason)
                continue;
            if (cycle.State != RigState.SafeStop)
                cycle.Inbox.Post(CommandKind.Stop, CommandSource.Host);
            if (_told[i])
                continue;
            _told[i] = true;
            First ??= reason;
            cycle.Note(new RigEvent(now, cycle.ScanNumber + 1, EventNames.DeviceLost, devices[i].Id, reason, new Dictionary<string, object>()));
        }
    }
}

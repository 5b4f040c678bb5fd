using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Recording;

/// <summary>What cannot be recorded is not run: stops the rig when the recorder falls behind, loses a chunk or can no longer write.</summary>
internal sealed class RecordWatch(ScanCycle cycle, ChunkQueue queue, HostDevice host)
{
    /// <summary>Share of the recorder's queue in use at which the rig is stopped: the other half holds what stopping adds.</summary>
    public const double BacklogThatStops = 0.5;

    /// <summary>Whether the queue may fill: it may not on a real clock; a virtual one waits for the recorder instead.</summary>
    public bool MindsBacklog { get; init; }

    /// <summary>Looks before a scan. Returns whether the record is not kept.</summary>
    /// <param name="failed">Whether the recorder has said that it can no longer write.</param>
    public bool Follow(bool failed)
    {
        bool unrecorded = failed || cycle.RecordLost;
        if (MindsBacklog)
        {
            host.RecorderBacklog = queue.Backlog * 100;
            unrecorded |= queue.Backlog > BacklogThatStops;
        }

        if (unrecorded && cycle.State != RigState.SafeStop)
            cycle.Inbox.Post(CommandKind.Stop, CommandSource.Host);
        return unrecorded;
    }
}

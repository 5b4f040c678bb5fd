using RigControl.Model.Signals;

namespace RigControl.Model.Records;

/// <summary>
/// A stretch of the record on its way to the logbook: scan records in order, the samples of each device in the order in
/// which they were folded, and events. Filled by one thread, handed over whole, emptied and used again.
/// </summary>
public sealed class RecordChunk
{
    /// <summary>Most scan records in a chunk: a quarter second at 1 kHz, above what waits between two hand-overs.</summary>
    public const int ScanCapacity = 256;

    /// <summary>Scan records; the first <see cref="ScanCount"/> are set.</summary>
    public ScanRecord[] Scans { get; } = new ScanRecord[ScanCapacity];

    public int ScanCount { get; set; }

    /// <summary>One buffer per device, in the order of the watermarks.</summary>
    public SampleBuffer[] Devices { get; }

    public List<RigEvent> Events { get; } = [];

    /// <param name="devices">Number of devices, the host included.</param>
    public RecordChunk(int devices)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(devices, Capacity.Devices);
        Devices = new SampleBuffer[devices];
        for (int i = 0; i < devices; i++)
            Devices[i] = new SampleBuffer();
    }

    public bool IsEmpty => ScanCount == 0 && Events.Count == 0 && Array.TrueForAll(Devices, d => d.Count == 0);

    /// <summary>Forgets the content and keeps the memory.</summary>
    public void Clear()
    {
        ScanCount = 0;
        Events.Clear();
        foreach (SampleBuffer device in Devices)
            device.Clear();
    }
}

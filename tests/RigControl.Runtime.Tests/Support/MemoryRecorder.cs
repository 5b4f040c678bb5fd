namespace RigControl.Runtime.Tests.Support;

/// <summary>Keeps a run in memory, and fails, or waits, where the test says so.</summary>
internal sealed class MemoryRecorder : IRunRecorder
{
    private int _appends;
    private int _commits;

    /// <summary>Called with the number of the append, from 1, before anything is kept.</summary>
    public Action<int>? OnAppend { get; init; }

    /// <summary>Called with the number of the commit, from 1.</summary>
    public Action<int>? OnCommit { get; init; }

    public List<ScanRecord> Scans { get; } = [];

    /// <summary>Samples of each device, in order.</summary>
    public List<List<Sample>> Samples { get; } = [];

    public List<RigEvent> Events { get; } = [];

    /// <summary>Scans and events that the last commit made safe.</summary>
    public (int Scans, int Events) Safe { get; private set; }

    public void Append(RecordChunk chunk)
    {
        OnAppend?.Invoke(++_appends);
        Scans.AddRange(chunk.Scans.AsSpan(0, chunk.ScanCount));
        Events.AddRange(chunk.Events);
        for (int i = 0; i < chunk.Devices.Length; i++)
        {
            if (Samples.Count == i)
                Samples.Add([]);
            Samples[i].AddRange(chunk.Devices[i].Samples);
        }
    }

    public void Commit()
    {
        OnCommit?.Invoke(++_commits);
        Safe = (Scans.Count, Events.Count);
    }

    public void Finish(RunEnd end, IReadOnlyList<Figure> figures) => Commit();

    public void Dispose()
    {
        // Nothing is held.
    }

    /// <summary>Names of the events, in order.</summary>
    public IEnumerable<string> Told => Events.Select(e => e.Name);

    public RigEvent The(string name) => Assert.Single(Events, e => e.Name == name);

    /// <summary>What identifies a scan: its hash stands for the kernel's whole state.</summary>
    public IEnumerable<(long, TimeSpan, ulong, RigState, long, double)> Fingerprint =>
        Scans.Select(s => (s.Scan, s.Now, s.StateHash, s.State, BitConverter.DoubleToInt64Bits(s.Outputs.Pulse), (double)s.Watermarks[0]));
}

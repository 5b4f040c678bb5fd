using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Runs;

/// <summary>The samples of all devices of a run, handed to a replay as the scans took them.</summary>
internal sealed class RecordedSamples(LogbookFile book, RunHeader header) : IDisposable
{
    private readonly IEnumerator<Sample>[] _samples = [.. header.Devices.Select((_, device) => book.Samples(header.Run, device).GetEnumerator())];
    private readonly long[] _fed = new long[header.Devices.Count];

    public void FeedUpTo(in Watermarks watermarks, Replay replay)
    {
        for (int device = 0; device < _samples.Length; device++)
        {
            for (; _fed[device] < watermarks[device] && _samples[device].MoveNext(); _fed[device]++)
                replay.Take(_samples[device].Current);
        }
    }

    public void Dispose()
    {
        foreach (IEnumerator<Sample> samples in _samples)
            samples.Dispose();
    }
}

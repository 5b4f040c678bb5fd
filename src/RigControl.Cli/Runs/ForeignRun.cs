using System.Security.Cryptography;
using RigControl.Documents.Traces;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Cli.Runs;

/// <summary>Runs that this program did not drive: typed readings and traces of other recorders. They are real and have no scans.</summary>
internal static class ForeignRun
{
    /// <summary>Stands for the rig of typed readings.</summary>
    public const string ByHand = "by-hand";

    /// <summary>Stands for the rig of a trace from another recorder.</summary>
    public const string Imported = "imported";

    private const string Letters = "abcdefghjkmnpqrstuvwxyz23456789";

    // A chunk that is handed over whole; a trace of any length goes through it.
    private const int SamplesPerChunk = 50_000;

    public static RunHeader Header(string rig, DocumentCopy article, string procedure, DateTimeOffset startedAt, IReadOnlyList<Channel> channels) => new()
    {
        Run = RandomNumberGenerator.GetString(Letters, 8),
        StartedAt = startedAt, Simulated = false, Seed = 0, Operator = Environment.UserName, Software = Headers.Version,
        Procedure = new DocumentCopy(procedure, ""), Rig = new DocumentCopy(rig, ""), Article = article,
        Plugins = [], Interlocks = [], Channels = channels,
        Devices = [new DeviceIdentity(rig, "", false, new Dictionary<string, string>())],
    };

    /// <summary>The channels of a trace, all of one device. Their steps are not known, so values are kept as they came.</summary>
    public static IReadOnlyList<Channel> ChannelsOf(RecordedTrace trace) => [.. trace.Channels.Select((c, i) => new Channel(i, c.Name, 0, new ChannelDeclaration
    {
        Name = c.Name, Unit = c.Unit, Minimum = double.NegativeInfinity, Maximum = double.PositiveInfinity,
        Period = Period(c), MaximumAge = TimeSpan.MaxValue,
    }))];

    /// <summary>Writes samples, figures and a completed end, all safe on the disk when this returns.</summary>
    public static void Write(LogbookFile book, RunHeader header, RecordedTrace? trace, IReadOnlyList<Figure> figures, string note)
    {
        using IRunRecorder recorder = book.Begin(header);
        if (trace is not null)
            WriteSamples(recorder, trace);
        recorder.Finish(new RunEnd(RunOutcome.Completed, DateTimeOffset.UtcNow, note), figures);
    }

    private static void WriteSamples(IRunRecorder recorder, RecordedTrace trace)
    {
        RecordChunk chunk = new(1);
        foreach ((double at, int channel, double value) in trace.Channels
            .SelectMany((c, i) => c.Times.Select((t, k) => (At: t, Channel: i, Value: c.Values[k])))
            .OrderBy(s => s.At).ThenBy(s => s.Channel))
        {
            chunk.Devices[0].Add(new Sample((ushort)channel, Quality.Good, TimeSpan.FromTicks((long)Math.Round(at * TimeSpan.TicksPerSecond)), value));
            if (chunk.Devices[0].Count == SamplesPerChunk)
                Flush(recorder, chunk);
        }

        Flush(recorder, chunk);
    }

    private static void Flush(IRunRecorder recorder, RecordChunk chunk)
    {
        recorder.Append(chunk);
        recorder.Commit();
        chunk.Clear();
    }

    private static TimeSpan Period(RecordedChannel channel) => channel.Times.Length < 2
        ? TimeSpan.FromSeconds(1)
        : TimeSpan.FromSeconds((channel.Times[^1] - channel.Times[0]) / (channel.Times.Length - 1));
}

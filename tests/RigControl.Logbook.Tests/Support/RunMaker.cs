using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Logbook.Tests.Support;

/// <summary>A run whose every chunk is known by its number.</summary>
internal static class RunMaker
{
    public const int Devices = 2;
    public const int Channels = 3;
    public const int ScansPerChunk = 20;
    public const int SamplesPerScan = 3;
    public const int ChunksPerEvent = 4;

    public static RunHeader Header(string run, bool simulated = false) => new()
    {
        Run = run,
        StartedAt = new DateTimeOffset(2031, 5, 4, 18, 30, 0, TimeSpan.FromHours(2)) + TimeSpan.FromTicks(1234567),
        Simulated = simulated,
        Seed = ulong.MaxValue - 6,
        Operator = "school workshop",
        Software = "0.1.0",
        Procedure = new("enclosed-spin-up", "procedure: enclosed-spin-up\n"),
        Rig = new("bench", "rig: bench\n"),
        Article = new("disc-180", "article: disc-180\n# \"180 g\"\n"),
        Plugins = [new("RigControl.SimulatedRig", "0.1.0", "00ff")],
        Devices = [new("bench", "simulated-rig", simulated, new Dictionary<string, string> { ["firmware"] = "1.2" }), new("host", "host", simulated, new Dictionary<string, string>())],
        Interlocks = [new("lid", "lid-closed", new Dictionary<string, string> { ["within"] = "50 ms" })],
        Channels = [Channel(0, "rotor.speed", "rpm", 0.1, 0), Channel(1, "battery.voltage", "V", 0.01, 0), Channel(2, "recorder.backlog", "%", 0, 1)],
    };

    private static Channel Channel(int index, string name, string unit, double resolution, int device) => new(index, name, device, new ChannelDeclaration
    {
        Name = name, Unit = unit, Minimum = double.NegativeInfinity, Maximum = 1e5, Resolution = resolution,
        Period = TimeSpan.FromMilliseconds(1), MaximumAge = TimeSpan.FromMilliseconds(5),
    });

    /// <summary>Makes <paramref name="chunk"/> the run's chunk of this number, from 0: 20 scans of 1 ms, and an event in every fourth.</summary>
    public static void Fill(RecordChunk chunk, int number)
    {
        chunk.Clear();
        long first = (long)number * ScansPerChunk + 1;
        ScanMaker.Idle(chunk.Scans.AsSpan(0, ScansPerChunk), first, interlocks: 1, devices: 0, samplesPerDevice: 0);
        for (int i = 0; i < ScansPerChunk; i++)
        {
            chunk.Scans[i].Watermarks[0] = (first + i) * 2;
            chunk.Scans[i].Watermarks[1] = first + i;
            chunk.Devices[0].Add(SampleAt(first + i, 0));
            chunk.Devices[0].Add(SampleAt(first + i, 1));
            chunk.Devices[1].Add(SampleAt(first + i, 2));
        }
        chunk.ScanCount = ScansPerChunk;
        if (number % ChunksPerEvent == 0)
            chunk.Events.Add(EventOf(number));
    }

    public static Sample SampleAt(long scan, int channel) => new(
        (ushort)channel, Quality.Good, TimeSpan.FromMilliseconds(scan), channel switch { 0 => scan % 9000 * 0.1, 1 => (1680 - scan % 7) * 0.01, _ => 0.5 });

    public static RigEvent EventOf(int chunk) => new(
        TimeSpan.FromMilliseconds(chunk * ScansPerChunk + 1), chunk * ScansPerChunk + 1, EventNames.StateEntered, "Hold",
        $"chunk {chunk}", new Dictionary<string, object> { ["chunk"] = (long)chunk });

    /// <summary>Records a whole run of so many chunks and ends it.</summary>
    public static void Record(LogbookFile logbook, string run, int chunks, RunOutcome outcome = RunOutcome.Completed)
    {
        using IRunRecorder recorder = logbook.Begin(Header(run));
        Append(recorder, 0, chunks);
        recorder.Finish(End(outcome), Figures);
    }

    public static void Append(IRunRecorder recorder, int from, int count)
    {
        RecordChunk chunk = new(Devices);
        for (int number = from; number < from + count; number++)
        {
            Fill(chunk, number);
            recorder.Append(chunk);
            recorder.Commit();
        }
    }

    public static RunEnd End(RunOutcome outcome) => new(outcome, new DateTimeOffset(2031, 5, 4, 16, 31, 0, TimeSpan.Zero), "as planned");

    public static readonly Figure[] Figures =
    [
        new("peak-speed", 8912.4, "rpm", 6.1, (8900.2, 8924.6), 1, "highest speed", null)
        {
            Budget = [new("scatter of the readings", 5.8, 0.904), new("step of the tachometer", 1.89, 0.096)],
        },
        new("drag-constant", null, "N.m", null, null, 0, "coast-down fit", "the article declares no inertia"),
    ];
}

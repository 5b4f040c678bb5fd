using System.Diagnostics;
using System.Globalization;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Publishing;

namespace RigControl.Benchmarks.Network;

/// <summary>
/// Processor time of a publisher in a process of its own: 16 channels at 1 kHz through a broker to a reader, against the same
/// process that makes the same scans and shows them to nobody.
/// </summary>
internal static class PublisherCost
{
    public const string Option = "--publisher";

    private const int Channels = 16;
    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(4);
    private static readonly TimeSpan Length = TimeSpan.FromSeconds(15);

    public static IEnumerable<Row> Measure()
    {
        using Broker broker = new();
        (double nobody, _) = Once(broker.Port, "nobody", () => 0);
        Func<long> count = broker.Read();
        (double named, double messages) = Once(broker.Port, "named", count);
        int port = Broker.FreePort();
        (double embedded, double through) = Once(port, "embedded", null);
        string reference = $"the same scans shown to nobody: {nobody:0.0} % of a core";
        yield return new Row("16 channels at 1 kHz to mosquitto and a reader, the publisher's process", $"{named:0.0} % of a core, {messages:0.0} messages a second", reference, $"{named - nobody:+0.0;-0.0} %");
        yield return new Row("the same through the embedded broker, publisher and broker in one process", $"{embedded:0.0} % of a core, {through:0.0} messages a second", reference, $"{embedded - nobody:+0.0;-0.0} %");
    }

    /// <summary>Is the publisher, until it is killed.</summary>
    public static int Publish(string port, string how, string folder)
    {
        RunHeader header = Header();
        int number = int.Parse(port, CultureInfo.InvariantCulture);
        TelemetrySettings settings = new()
        {
            Site = "bench", Rig = "bench", StateRoot = folder, EmbeddedPort = number,
            Broker = how == "embedded" ? null : new BrokerAddress { Host = "127.0.0.1", Port = number },
        };
        IRunSink sink = how == "nobody" ? new Nobody() : RigTelemetry.Start(settings, header, TimeSpan.FromMilliseconds(1), _ => { });
        ScanRecord record = default;
        InputImage image = default;
        Random random = new(1);
        long began = Stopwatch.GetTimestamp();
        while (true)
        {
            Thread.Sleep(5);
            for (double now = Stopwatch.GetElapsedTime(began).TotalMilliseconds; record.Scan < now;)
                Scan(ref record, ref image, random, sink);
        }
    }

    private static (double Percent, double Messages) Once(int port, string how, Func<long>? count)
    {
        string folder = Directory.CreateTempSubdirectory("rigcontrol-benchmark-").FullName;
        List<Process> readers = [];
        using Process publisher = Process.Start("dotnet", [typeof(PublisherCost).Assembly.Location, Option, port.ToString(CultureInfo.InvariantCulture), how, folder]);
        try
        {
            while (!Broker.Listens(port))
                Thread.Sleep(20);
            count ??= Broker.Read(port, readers);
            Thread.Sleep(Settling);
            publisher.Refresh();
            (TimeSpan before, long said, long began) = (publisher.TotalProcessorTime, count(), Stopwatch.GetTimestamp());
            Thread.Sleep(Length);
            publisher.Refresh();
            double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
            return ((publisher.TotalProcessorTime - before).TotalSeconds / seconds * 100, (count() - said) / seconds);
        }
        finally
        {
            foreach (Process process in readers.Append(publisher))
            {
                process.Kill();
                process.WaitForExit();
            }

            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Scan(ref ScanRecord record, ref InputImage image, Random random, IRunSink sink)
    {
        record.Scan++;
        record.Now = TimeSpan.FromMilliseconds(record.Scan);
        (record.Before, record.State, record.InterlockCount) = (record.State, RigState.Hold, 2);
        record.Demands[0] = Demand.Proceed(0, 1, 1, 1, record.Now);
        record.Demands[1] = Demand.Proceed(0, 1, 2, 0.5, record.Now);
        for (int i = 0; i < Channels; i++)
        {
            double value = Math.Round(random.NextDouble() * 10_000) / 10;
            image[i] = new ImageEntry { Last = value, Minimum = value, Maximum = value, Count = 1, Quality = Quality.Good, Cause = BadCause.None };
        }

        sink.See(record, image);
    }

    private static RunHeader Header() => new()
    {
        Run = "benchmark", StartedAt = DateTimeOffset.UtcNow, Simulated = true, Seed = 1, Operator = "nobody", Software = "benchmark",
        Procedure = new DocumentCopy("p", "p"), Rig = new DocumentCopy("r", "r"), Article = new DocumentCopy("a", "a"), Plugins = [], Devices = [],
        Interlocks = [new InterlockIdentity("lid-closed", "lid-closed", new Dictionary<string, string>()), new InterlockIdentity("over-speed", "over-speed", new Dictionary<string, string>())],
        Channels = [.. Enumerable.Range(0, Channels).Select(i => new Channel(i, $"channel-{i}", 0, new ChannelDeclaration
        {
            Name = $"channel-{i}", Unit = "V", Minimum = 0, Maximum = 1000, Resolution = 0.1, Period = TimeSpan.FromMilliseconds(1), MaximumAge = TimeSpan.FromMilliseconds(100),
        }))],
    };

    private sealed class Nobody : IRunSink
    {
        public void See(in ScanRecord record, in InputImage image) { }

        public void Hear(RigEvent happened) { }
    }
}

using System.Buffers;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using MQTTnet;
using MQTTnet.Protocol;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Benchmarks.Network;

/// <summary>From the publishing of a stop to the scan that takes it, with data flowing, against a stop put straight into the inbox.</summary>
internal static class StopOverNetwork
{
    private const int Stops = 300;
    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(2);

    public static IEnumerable<Row> Measure()
    {
        using Broker broker = new();
        broker.Read();
        foreach ((string name, int port, int embedded) in new[] { ("mosquitto", broker.Port, 0), ("the embedded broker", 0, Broker.FreePort()) })
        {
            ((double Median, double High) network, (double Median, double High) inbox) = Once(port, embedded);
            yield return new Row(
                $"stop through {name} to the scan that takes it, data flowing at 1 kHz, {Stops} stops", $"median {network.Median:0.0} ms, 99th percentile {network.High:0.0} ms",
                $"straight into the inbox: median {inbox.Median:0.0} ms, 99th percentile {inbox.High:0.0} ms", $"{network.Median / inbox.Median:0.0}, {network.High / inbox.High:0.0}");
        }
    }

    private static ((double, double) Network, (double, double) Inbox) Once(int port, int embedded)
    {
        long taken = 0;
        using Scanning scanning = new(port, (in ScanRecord record, in InputImage _) =>
        {
            for (int i = 0; i < record.ReceiptCount; i++)
            {
                if (record.Receipts[i] is { Kind: CommandKind.Stop, Refusal: RefusalReason.None })
                    Volatile.Write(ref taken, Stopwatch.GetTimestamp());
            }
        }, embedded);
        Thread.Sleep(Settling);
        using IMqttClient client = new MqttClientFactory().CreateMqttClient();
        client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port == 0 ? embedded : port).WithProtocolVersion(MQTTnet.Formatter.MqttProtocolVersion.V500).Build())
            .GetAwaiter().GetResult();
        return (Timed(ref taken, number => Send(client, number)), Timed(ref taken, _ => scanning.Inbox.Post(CommandKind.Stop, CommandSource.Network)));
    }

    private static (double Median, double High) Timed(ref long taken, Action<int> stop)
    {
        Random random = new(7);
        List<double> times = [];
        for (int i = 0; i < Stops; i++)
        {
            // At no fixed place of a scan or a block.
            Thread.Sleep(10 + random.Next(30));
            Volatile.Write(ref taken, 0);
            long began = Stopwatch.GetTimestamp();
            stop(i);
            while (Volatile.Read(ref taken) == 0)
            {
                Thread.Sleep(1);
                if (Stopwatch.GetElapsedTime(began) > TimeSpan.FromSeconds(10))
                    throw new InvalidOperationException("a stop was not taken within ten seconds");
            }

            times.Add(Stopwatch.GetElapsedTime(began, Volatile.Read(ref taken)).TotalMilliseconds);
        }

        times.Sort();
        return (times[times.Count / 2], times[times.Count * 99 / 100]);
    }

    private static void Send(IMqttClient client, int number)
    {
        string expires = DateTimeOffset.UtcNow.AddSeconds(10).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
        string payload = $$"""{"client":"bench","correlation":"{{Guid.NewGuid()}}-{{number}}","expires":"{{expires}}"}""";
        client.PublishAsync(new MqttApplicationMessage
        {
            Topic = "rigcontrol/1/bench/bench/command/stop", Payload = new ReadOnlySequence<byte>(Encoding.UTF8.GetBytes(payload)), QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
        }).GetAwaiter().GetResult();
    }
}

using System.Buffers;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using MQTTnet;
using MQTTnet.Protocol;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Benchmarks.Network;

/// <summary>
/// From the publishing of a stop to the scan that takes it, with data flowing, against a stop put straight into the inbox and
/// against a message that two plain clients send each other through the same broker.
/// </summary>
internal static class StopOverNetwork
{
    private const int Stops = 200;
    private const string Stop = "rigcontrol/1/bench/bench/command/stop";
    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(2);

    public static IEnumerable<Row> Measure()
    {
        using Broker broker = new();
        using Broker quick = new(noDelay: true);
        broker.Read();
        quick.Read();
        foreach ((string name, int port, int embedded) in new[]
        {
            ("mosquitto as it comes", broker.Port, 0), ("mosquitto with set_tcp_nodelay", quick.Port, 0), ("the embedded broker", 0, Broker.FreePort()),
        })
        {
            ((double Median, double High) network, (double Median, double High) inbox, (double Median, double High)? echo) = Once(port, embedded);
            yield return Line(name, network, "straight into the inbox", inbox);
            if (echo is { } plain)
                yield return Line(name, network, $"a message from one plain client to another through {name}", plain);
        }
    }

    private static Row Line(string name, (double Median, double High) network, string reference, (double Median, double High) beside) => new(
        $"stop through {name} to the scan that takes it, data flowing at 1 kHz, {Stops} stops", $"median {network.Median:0.0} ms, 99th percentile {network.High:0.0} ms",
        $"{reference}: median {beside.Median:0.0} ms, 99th percentile {beside.High:0.0} ms", $"{network.Median / beside.Median:0.0}, {network.High / beside.High:0.0}");

    private static ((double, double) Network, (double, double) Inbox, (double, double)? Echo) Once(int port, int embedded)
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
        using IMqttClient client = Connected(port == 0 ? embedded : port);
        (double, double) network = Timed(ref taken, number => Send(client, Stop, Order(number)));
        (double, double) inbox = Timed(ref taken, _ => scanning.Inbox.Post(CommandKind.Stop, CommandSource.Network));
        // The embedded broker carries nothing but what belongs to the rig.
        return (network, inbox, port == 0 ? null : Echo(port, client));
    }

    private static (double, double) Echo(int port, IMqttClient client)
    {
        long heard = 0;
        using IMqttClient other = Connected(port);
        other.ApplicationMessageReceivedAsync += _ =>
        {
            Volatile.Write(ref heard, Stopwatch.GetTimestamp());
            return Task.CompletedTask;
        };
        other.SubscribeAsync("echo", MqttQualityOfServiceLevel.AtLeastOnce).GetAwaiter().GetResult();
        return Timed(ref heard, number => Send(client, "echo", Order(number)));
    }

    private static IMqttClient Connected(int port)
    {
        IMqttClient client = new MqttClientFactory().CreateMqttClient();
        client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithProtocolVersion(MQTTnet.Formatter.MqttProtocolVersion.V500).Build()).GetAwaiter().GetResult();
        return client;
    }

    private static (double Median, double High) Timed(ref long taken, Action<int> stop)
    {
        Random random = new(7);
        List<double> times = [];
        for (int i = 0; i < Stops; i++)
        {
            // At no fixed place of a scan or a block, and not while the one before is still being told.
            Thread.Sleep(100 + random.Next(200));
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

    private static string Order(int number)
    {
        string expires = DateTimeOffset.UtcNow.AddSeconds(10).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
        return $$"""{"client":"bench","correlation":"{{Guid.NewGuid()}}-{{number}}","expires":"{{expires}}"}""";
    }

    private static void Send(IMqttClient client, string topic, string payload) =>
        client.PublishAsync(new MqttApplicationMessage
        {
            Topic = topic, Payload = new ReadOnlySequence<byte>(Encoding.UTF8.GetBytes(payload)), QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
        }).GetAwaiter().GetResult();
}

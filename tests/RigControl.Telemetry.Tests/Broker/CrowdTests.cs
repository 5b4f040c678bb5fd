using MQTTnet;
using MQTTnet.Protocol;
using RigControl.Telemetry.Broker;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Broker;

/// <summary>The embedded broker with many clients, with one that takes nothing, and with a host that dies.</summary>
public sealed class CrowdTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly int _port = Ports.Free();

    [Fact]
    [Trait("Requirement", "SAF-070")]
    public async Task A_reader_that_stops_reading_holds_up_neither_the_rig_nor_another_reader()
    {
        using Published rig = Start();
        using Relay way = new(_port);
        await using Reader ready = await Reader.At(_port, "ready");
        (Reader stuck, _) = await Reader.Try(way.Port, "stuck");
        await stuck.Subscribe("#");
        await ready.Subscribe("#");
        way.StopReading();
        // More than any buffer between the two holds.
        long blocks = 0;
        await Until.True(() =>
        {
            rig.Toy.Ticks(200);
            blocks = ready.Of(rig.Topics.Data).Count();
            return blocks > 120;
        }, "the data, at the one who reads");
        await ready.Publish(rig.Topics.Stop, Orders.Stop());
        await Until.True(() => rig.Port.Stops.Count == 1, "a stop");
        stuck.Vanish();
    }

    [Fact]
    [Trait("Requirement", "SAF-075")]
    public async Task A_crowd_beyond_the_limit_is_sent_away_and_the_host_stays()
    {
        using Published rig = Start();
        await using Reader first = await Reader.At(_port, "first");
        await first.Subscribe(rig.Topics.Heartbeat);
        await Until.True(() => first.Of(rig.Topics.Heartbeat).Any(), "the host");
        List<Reader> crowd = [];
        MqttClientConnectResultCode last = MqttClientConnectResultCode.Success;
        for (int i = 0; i < EmbeddedBroker.MostClients && last == MqttClientConnectResultCode.Success; i++)
        {
            (Reader one, last) = await Reader.Try(_port, $"crowd-{i}");
            crowd.Add(one);
        }

        Assert.Equal(MqttClientConnectResultCode.QuotaExceeded, last);
        Assert.Equal(EmbeddedBroker.MostClients - 2, crowd.Count - 1);
        int before = first.Of(rig.Topics.Heartbeat).Count();
        await Until.True(() => first.Of(rig.Topics.Heartbeat).Count() > before + 1, "the host going on");
        crowd.ForEach(c => c.Vanish());
        await Until.True(() =>
        {
            (Reader late, MqttClientConnectResultCode code) = Reader.Try(_port, "late").GetAwaiter().GetResult();
            late.Vanish();
            return code == MqttClientConnectResultCode.Success;
        }, "room, once the crowd has gone");
    }

    [Fact]
    [Trait("Requirement", "SAF-076")]
    public async Task The_embedded_broker_says_lost_when_the_host_s_own_link_breaks_and_keeps_it()
    {
        Topics topics = new("workshop", "toy-box");
        await using EmbeddedBroker broker = await EmbeddedBroker.Start(_port, topics, BrokerUsers.Everyone, "host", _ => null, _ => { });
        Credentials credentials = broker.HostCredentials;
        await using Reader reader = await Reader.At(_port);
        await reader.Subscribe(topics.Status);
        (Reader host, MqttClientConnectResultCode code) = await Reader.Try(_port, "host", credentials.User, credentials.Password, o => o
            .WithWillTopic(topics.Status).WithWillPayload("""{"status":"lost"}""").WithWillRetain().WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce));
        Assert.Equal(MqttClientConnectResultCode.Success, code);
        await host.Publish(topics.Status, """{"status":"online"}""", retain: true);
        await Until.True(() => reader.Of(topics.Status).Any(s => s.Contains("online", StringComparison.Ordinal)), "online");
        host.Vanish();
        await Until.True(() => reader.Of(topics.Status).Last().Contains("lost", StringComparison.Ordinal), "lost");
        await using Reader late = await Reader.At(_port, "late");
        await late.Subscribe(topics.Status);
        await Until.True(() => late.Messages.Any(m => m.Retained && m.Payload.Contains("lost", StringComparison.Ordinal)), "lost, kept for a late reader");
    }

    public void Dispose() => _folder.Dispose();

    private Published Start() => new Published(_folder.Path, embeddedPort: _port).Attached();
}

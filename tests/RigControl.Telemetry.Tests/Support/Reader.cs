using System.Buffers;
using System.Collections.Concurrent;
using System.Text;
using MQTTnet;
using MQTTnet.Packets;
using MQTTnet.Protocol;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>A plain client of the library: reads, and sends what it likes.</summary>
internal sealed class Reader : IAsyncDisposable
{
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();

    public ConcurrentQueue<(string Topic, string Payload, bool Retained, byte[]? Correlation)> Messages { get; } = new();

    public IEnumerable<string> Of(string topic) => Messages.Where(m => m.Topic == topic).Select(m => m.Payload);

    public static async Task<(Reader Reader, MqttClientConnectResultCode Code)> Try(int port, string id, string? user = null, string? password = null, Action<MqttClientOptionsBuilder>? more = null)
    {
        Reader reader = new();
        reader._client.ApplicationMessageReceivedAsync += args =>
        {
            MqttApplicationMessage m = args.ApplicationMessage;
            reader.Messages.Enqueue((m.Topic, Encoding.UTF8.GetString(m.Payload.ToArray()), m.Retain, m.CorrelationData));
            return Task.CompletedTask;
        };
        MqttClientOptionsBuilder options = new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithClientId(id)
            .WithProtocolVersion(MQTTnet.Formatter.MqttProtocolVersion.V500).WithMaximumPacketSize(1 << 20);
        if (user is not null)
            options.WithCredentials(user, password ?? "");
        more?.Invoke(options);
        MqttClientConnectResult result = await reader._client.ConnectAsync(options.Build());
        return (reader, result.ResultCode);
    }

    /// <summary>Connects as soon as the broker is there.</summary>
    public static async Task<Reader> At(int port, string id = "reader", string? user = null, string? password = null)
    {
        for (int attempt = 0; ; attempt++)
        {
            try
            {
                (Reader reader, MqttClientConnectResultCode code) = await Try(port, id, user, password);
                Assert.Equal(MqttClientConnectResultCode.Success, code);
                return reader;
            }
            catch (MQTTnet.Exceptions.MqttCommunicationException) when (attempt < 500)
            {
                await Task.Delay(10);
            }
        }
    }

    public async Task<MqttClientSubscribeResultCode> Subscribe(string filter) => (await _client.SubscribeAsync(new MqttClientSubscribeOptions
    {
        TopicFilters = [new MqttTopicFilter { Topic = filter, QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce }],
    })).Items.Single().ResultCode;

    public async Task<MqttClientPublishReasonCode> Publish(
        string topic, byte[] payload, bool retain = false, MqttQualityOfServiceLevel quality = MqttQualityOfServiceLevel.AtLeastOnce, string? answer = null, byte[]? correlation = null) =>
        (await _client.PublishAsync(new MqttApplicationMessage
        {
            Topic = topic, Payload = new ReadOnlySequence<byte>(payload), Retain = retain, QualityOfServiceLevel = quality, ResponseTopic = answer, CorrelationData = correlation,
        })).ReasonCode;

    public Task<MqttClientPublishReasonCode> Publish(string topic, string payload, bool retain = false) => Publish(topic, Encoding.UTF8.GetBytes(payload), retain);

    public async ValueTask DisposeAsync()
    {
        await _client.DisconnectAsync(new MqttClientDisconnectOptions());
        _client.Dispose();
    }

    /// <summary>Breaks the link without a good-bye.</summary>
    public void Vanish() => _client.Dispose();
}

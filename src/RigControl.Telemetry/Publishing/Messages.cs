using System.Buffers;
using MQTTnet;
using MQTTnet.Protocol;

namespace RigControl.Telemetry.Publishing;

/// <summary>Messages as the interface lists them: which are kept by the broker, and which are acknowledged.</summary>
internal static class Messages
{
    public const string JsonType = "application/json";

    /// <summary>Acknowledged, and kept by the broker where asked.</summary>
    public static MqttApplicationMessage Sure(string topic, ReadOnlyMemory<byte> payload, bool retain = false, string contentType = JsonType) => new()
    {
        Topic = topic, Payload = new ReadOnlySequence<byte>(payload), Retain = retain, QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
        ContentType = contentType, PayloadFormatIndicator = MqttPayloadFormatIndicator.CharacterData,
    };

    /// <summary>Sent once, and lost when it is lost.</summary>
    public static MqttApplicationMessage Once(string topic, ReadOnlyMemory<byte> payload) => new()
    {
        Topic = topic, Payload = new ReadOnlySequence<byte>(payload), QualityOfServiceLevel = MqttQualityOfServiceLevel.AtMostOnce, ContentType = JsonType,
    };
}

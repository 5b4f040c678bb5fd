using System.Buffers;
using System.Text;
using MQTTnet;
using MQTTnet.Packets;
using RigControl.Model.Records;
using RigControl.Telemetry.Broker;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Commands;

/// <summary>The door for the network with everything behind it in sight, on a clock of the test's own.</summary>
internal sealed class Door
{
    private readonly CommandIntake _intake;

    public Door(bool trustsBroker = false, bool hasRun = true)
    {
        Refusals = new RefusalBook(Time, (command, text, client) => Port.Tell(RefusalBook.EventName, command, text, client));
        Pending = new PendingStops(Time, Answers.Add);
        Port.OnStop = id => Pending.Hear(new Receipt(id, CommandKind.Stop, CommandSource.Network, RefusalReason.None));
        _intake = new CommandIntake(Topics, Time, Refusals, Pending, () => hasRun ? Port : null, (trip, client) => trip == "lid-closed", Answers.Add) { TrustsBroker = trustsBroker };
    }

    public Topics Topics { get; } = new("workshop", "toy-box");

    public ManualTime Time { get; } = new();

    public ToyPort Port { get; } = new();

    public RefusalBook Refusals { get; }

    public PendingStops Pending { get; }

    public List<Answer> Answers { get; } = [];

    public string Expires(double seconds = 10) => (Time.GetUtcNow() + TimeSpan.FromSeconds(seconds)).UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", System.Globalization.CultureInfo.InvariantCulture);

    public string Stop(string correlation, double expiresIn = 10, string client = "tablet") =>
        $$"""{"client":"{{client}}","correlation":"{{correlation}}","expires":"{{Expires(expiresIn)}}"}""";

    public void Take(string topic, string payload, bool retain = false, string? answer = null, byte[]? correlation = null, string? sender = null) =>
        Take(topic, Encoding.UTF8.GetBytes(payload), retain, answer, correlation, sender);

    public void Take(string topic, byte[] payload, bool retain = false, string? answer = null, byte[]? correlation = null, string? sender = null)
    {
        MqttApplicationMessage message = new() { Topic = topic, Payload = new ReadOnlySequence<byte>(payload), Retain = retain, ResponseTopic = answer, CorrelationData = correlation };
        if (sender is not null)
            message.UserProperties = [new MqttUserProperty(EmbeddedBroker.ClientProperty, Encoding.UTF8.GetBytes(sender).AsMemory())];
        _intake.Take(message);
        Pending.Settle();
    }
}

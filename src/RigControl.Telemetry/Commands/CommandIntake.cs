using System.Buffers;
using System.Text;
using MQTTnet;
using MQTTnet.Packets;
using RigControl.Model.Records;
using RigControl.Telemetry.Broker;

namespace RigControl.Telemetry.Commands;

/// <summary>
/// The door for the network: stop and acknowledge, and no other. Runs where the command arrives, on a link's receive loop or a
/// client's own, so that a stop is in the inbox before anything else happens; it never waits and never throws. One receipt each.
/// </summary>
/// <param name="seen">Marks a trip as seen by a client; false where it is not active.</param>
/// <param name="answer">Takes a receipt for publishing.</param>
internal sealed class CommandIntake(
    Topics topics, TimeProvider time, RefusalBook refusals, PendingStops pending, Func<INetworkPort?> port, Func<string, string, bool> seen, Action<Answer> answer)
{
    /// <summary>Longest time that a command may be good for.</summary>
    public static readonly TimeSpan LongestLife = TimeSpan.FromSeconds(60);

    private readonly Lock _lock = new();
    private readonly SeenCorrelations _correlations = new(4096);

    /// <summary>Whether the embedded broker vouches for the sender's name.</summary>
    public bool TrustsBroker { get; init; }

    /// <summary>Takes a command. Returns why it was refused, or null.</summary>
    public RefusalKind? Take(MqttApplicationMessage message)
    {
        bool isStop = message.Topic == topics.Stop;
        string name = isStop ? "stop" : "acknowledge";
        if (!isStop && message.Topic != topics.Acknowledge)
            return Refuse(RefusalKind.Malformed, "command");
        if (message.Retain)
            return Refuse(RefusalKind.Retained, name);
        if (message.Payload.Length > NetworkCommand.Largest)
            return Refuse(RefusalKind.Oversized, name);
        if (NetworkCommand.Read(message.Payload, !isStop) is not { } command)
            return Refuse(RefusalKind.Malformed, name);
        command = Vouched(message, command);
        bool isNew;
        lock (_lock)
            isNew = _correlations.Add(command.Correlation);
        // What was here before got its receipt the first time.
        return isNew ? Consider(new Answer(command, name, ReplyTopic(message), message.CorrelationData), isStop) : Refuse(RefusalKind.Repeated, name, command.Client);
    }

    private RefusalKind? Consider(Answer reply, bool isStop)
    {
        NetworkCommand command = reply.Command;
        TimeSpan left = command.Expires - time.GetUtcNow();
        if (left <= TimeSpan.Zero || left > LongestLife)
            return Refuse(reply, RefusalKind.Expired);
        if (port() is not { } network)
            return Refuse(reply, RefusalKind.Pointless);
        if (isStop)
        {
            pending.Add(network.Stop(command.Client), reply);
            return null;
        }

        if (!seen(command.Trip, command.Client))
            return Refuse(reply, RefusalKind.Pointless);
        network.Tell(EventNames.TripSeen, command.Trip, $"{command.Trip} was seen by the network ({command.Client})", command.Client);
        answer(reply);
        return null;
    }

    private RefusalKind Refuse(Answer reply, RefusalKind kind)
    {
        answer(reply with { Reason = RefusalBook.Sentence(kind) });
        return Refuse(kind, reply.Name, reply.Command.Client);
    }

    private RefusalKind Refuse(RefusalKind kind, string name, string client = "")
    {
        refusals.Add(kind, name, client);
        return kind;
    }

    private NetworkCommand Vouched(MqttApplicationMessage message, NetworkCommand command)
    {
        if (!TrustsBroker || message.UserProperties is not [MqttUserProperty { Name: EmbeddedBroker.ClientProperty } sender])
            return command;
        string id = Encoding.UTF8.GetString(sender.ValueBuffer.Span);
        return id == command.Client ? command : command with { Client = $"{command.Client}, connected as {id}" };
    }

    // A client may ask for the answer below the receipts; anywhere else it could make the host speak for it.
    private string ReplyTopic(MqttApplicationMessage message) =>
        message.ResponseTopic is { Length: < 200 } wanted && wanted.StartsWith(topics.Receipt + "/", StringComparison.Ordinal) && !wanted.AsSpan().ContainsAny('+', '#')
            ? wanted : topics.Receipt;
}

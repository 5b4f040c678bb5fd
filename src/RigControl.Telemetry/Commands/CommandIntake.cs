using System.Buffers;
using System.Text;
using MQTTnet;
using MQTTnet.Packets;
using RigControl.Model.Records;
using RigControl.Telemetry.Broker;

namespace RigControl.Telemetry.Commands;

/// <summary>
/// The door for the network: stop and acknowledge, and no other. Runs on the link's receive loop, so that a stop is in the
/// inbox before anything else happens; it never waits and never throws. Every command gets one receipt.
/// </summary>
/// <param name="seen">Marks a trip as seen by a client; false where it is not active.</param>
/// <param name="answer">Takes a receipt for publishing.</param>
internal sealed class CommandIntake(
    Topics topics, TimeProvider time, RefusalBook refusals, PendingStops pending, Func<INetworkPort?> port, Func<string, string, bool> seen, Action<Answer> answer)
{
    /// <summary>Longest time that a command may be good for.</summary>
    public static readonly TimeSpan LongestLife = TimeSpan.FromSeconds(60);

    private readonly SeenCorrelations _correlations = new(4096);

    /// <summary>Whether the embedded broker vouches for the sender's name.</summary>
    public bool TrustsBroker { get; init; }

    public void Take(MqttApplicationMessage message)
    {
        bool isStop = message.Topic == topics.Stop;
        string name = isStop ? "stop" : "acknowledge";
        if (!isStop && message.Topic != topics.Acknowledge)
            refusals.Add(RefusalKind.Malformed, "command", "");
        else if (message.Retain)
            refusals.Add(RefusalKind.Retained, name, "");
        else if (message.Payload.Length > NetworkCommand.Largest)
            refusals.Add(RefusalKind.Oversized, name, "");
        else if (NetworkCommand.Read(message.Payload, !isStop) is not { } command)
            refusals.Add(RefusalKind.Malformed, name, "");
        else
            Consider(message, Vouched(message, command), isStop, name);
    }

    private void Consider(MqttApplicationMessage message, NetworkCommand command, bool isStop, string name)
    {
        // Its receipt was given the first time.
        if (!_correlations.Add(command.Correlation))
        {
            refusals.Add(RefusalKind.Repeated, name, command.Client);
            return;
        }

        Answer reply = new(command, name, ReplyTopic(message), message.CorrelationData);
        TimeSpan left = command.Expires - time.GetUtcNow();
        if (left <= TimeSpan.Zero || left > LongestLife)
            Refuse(reply, RefusalKind.Expired);
        else if (port() is not { } network)
            Refuse(reply, RefusalKind.Pointless);
        else if (isStop)
            pending.Add(network.Stop(command.Client), reply);
        else if (seen(command.Trip, command.Client))
            Acknowledge(network, reply);
        else
            Refuse(reply, RefusalKind.Pointless);
    }

    private void Acknowledge(INetworkPort network, Answer reply)
    {
        NetworkCommand command = reply.Command;
        network.Tell(EventNames.TripSeen, command.Trip, $"{command.Trip} was seen by the network ({command.Client})", command.Client);
        answer(reply);
    }

    private void Refuse(Answer reply, RefusalKind kind)
    {
        refusals.Add(kind, reply.Name, reply.Command.Client);
        answer(reply with { Reason = RefusalBook.Sentence(kind) });
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

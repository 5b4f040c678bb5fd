using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text;
using MQTTnet.Packets;
using MQTTnet.Protocol;
using MQTTnet.Server;
using RigControl.Telemetry.Links;

namespace RigControl.Telemetry.Broker;

/// <summary>
/// The broker that this program brings along: on loopback only, for one rig, nothing kept when it ends. It knows who may do
/// what, and says so in the acknowledgement.
/// </summary>
internal sealed class EmbeddedBroker : IAsyncDisposable
{
    /// <summary>Name of the user property in which the broker tells the host who sent a command.</summary>
    public const string ClientProperty = "rigcontrol-client";

    /// <summary>Most clients at a time, the host included.</summary>
    public const int MostClients = 64;

    /// <summary>Largest payload that a client may publish, bytes.</summary>
    public const int LargestPayload = 4096;

    /// <summary>User by which the host itself signs in.</summary>
    public const string HostUser = "rigcontrol-host";

    private const string RoleItem = "role";

    private readonly MqttServer _server;
    private readonly BrokerUsers _users;
    private readonly Rights _rights;
    private readonly Action<string, string> _denied;
    private readonly string _hostId;
    private readonly byte[] _hostPassword = Encoding.ASCII.GetBytes(RandomNumberGenerator.GetHexString(32));
    private int _clients;

    private EmbeddedBroker(int port, Topics topics, BrokerUsers users, string hostId, Action<string, string> denied)
    {
        (_users, _rights, _hostId, _denied) = (users, new Rights(topics), hostId, denied);
        MqttServerOptions options = new MqttServerOptionsBuilder().WithDefaultEndpoint().WithDefaultEndpointPort(port)
            .WithDefaultEndpointBoundIPAddress(IPAddress.Loopback).WithDefaultEndpointBoundIPV6Address(IPAddress.None)
            .WithPersistentSessions(false).WithMaxPendingMessagesPerClient(256).WithPendingMessagesOverflowStrategy(MqttPendingMessagesOverflowStrategy.DropOldestQueuedMessage)
            .Build();
        _server = new MqttServerFactory().CreateMqttServer(options);
        _server.ValidatingConnectionAsync += Validate;
        _server.InterceptingPublishAsync += Publish;
        _server.InterceptingSubscriptionAsync += Subscribe;
        _server.InterceptingClientEnqueueAsync += Enqueue;
        _server.ClientConnectedAsync += _ => Count(1);
        _server.ClientDisconnectedAsync += _ => Count(-1);
    }

    /// <summary>How the host signs in.</summary>
    public Credentials HostCredentials => new(HostUser, Encoding.ASCII.GetString(_hostPassword), null, null);

    /// <param name="hostId">Client id of the host, which nobody else may use.</param>
    /// <param name="denied">Hears the client and what it was denied; called by the broker's own tasks.</param>
    /// <exception cref="LinkException">The port cannot be had.</exception>
    public static async Task<EmbeddedBroker> Start(int port, Topics topics, BrokerUsers users, string hostId, Action<string, string> denied)
    {
        EmbeddedBroker broker = new(port, topics, users, hostId, denied);
        try
        {
            await broker._server.StartAsync().ConfigureAwait(false);
            return broker;
        }
        catch (Exception e) when (e is SocketException or IOException or InvalidOperationException)
        {
            broker._server.Dispose();
            throw new LinkException($"the embedded broker cannot listen at port {port} ({e.Message}); another program has it, perhaps a broker: name that one in the rig file, or another port", e);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _server.StopAsync(new MqttServerStopOptions()).ConfigureAwait(false);
        _server.Dispose();
    }

    private Task Count(int change)
    {
        Interlocked.Add(ref _clients, change);
        return Task.CompletedTask;
    }

    private Task Validate(ValidatingConnectionEventArgs args)
    {
        bool isHost = args.UserName == HostUser && CryptographicOperations.FixedTimeEquals(args.RawPassword ?? [], _hostPassword);
        Role role = isHost ? Role.Host : _users.RoleOf(args.UserName, args.RawPassword);
        args.SessionItems[RoleItem] = role;
        // A client without a name of its own gets one, as the standard wants it.
        if (string.IsNullOrEmpty(args.ClientId))
            args.AssignedClientIdentifier = "anonymous-" + RandomNumberGenerator.GetHexString(12, lowercase: true);
        // A second client under the host's id would throw the host out.
        args.ReasonCode = role switch
        {
            Role.None => MqttConnectReasonCode.BadUserNameOrPassword,
            not Role.Host when args.ClientId == _hostId => MqttConnectReasonCode.ClientIdentifierNotValid,
            not Role.Host when Volatile.Read(ref _clients) >= MostClients => MqttConnectReasonCode.QuotaExceeded,
            _ => MqttConnectReasonCode.Success,
        };
        return Task.CompletedTask;
    }

    private Task Publish(InterceptingPublishEventArgs args)
    {
        Role role = RoleOf(args.SessionItems);
        var message = args.ApplicationMessage;
        string? reason = !_rights.MayPublish(role, message.Topic) ? "the topic is not for this client"
            : role == Role.Host ? null
            : message.Retain ? "a retained command"
            : message.Payload.Length > LargestPayload ? "an oversized command"
            : null;
        if (reason is null)
        {
            // Who really sent it, and not who the sender says it is.
            if (role != Role.Host)
                message.UserProperties = [new MqttUserProperty(ClientProperty, Encoding.UTF8.GetBytes(args.ClientId).AsMemory())];
            return Task.CompletedTask;
        }

        args.ProcessPublish = false;
        args.Response.ReasonCode = MqttPubAckReasonCode.NotAuthorized;
        args.Response.ReasonString = reason;
        _denied(args.ClientId, reason);
        return Task.CompletedTask;
    }

    private Task Subscribe(InterceptingSubscriptionEventArgs args)
    {
        if (_rights.MaySubscribe(RoleOf(args.SessionItems), args.TopicFilter.Topic))
            return Task.CompletedTask;
        args.ProcessSubscription = false;
        args.Response.ReasonCode = MqttSubscribeReasonCode.NotAuthorized;
        _denied(args.ClientId, "the filter is not for this client");
        return Task.CompletedTask;
    }

    private Task Enqueue(InterceptingClientApplicationMessageEnqueueEventArgs args)
    {
        args.AcceptEnqueue = args.ReceiverClientId == _hostId || _rights.MayReceive(Role.Reader, args.ApplicationMessage.Topic);
        return Task.CompletedTask;
    }

    private static Role RoleOf(System.Collections.IDictionary items) => items[RoleItem] is Role role ? role : Role.None;
}

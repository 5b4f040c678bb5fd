using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text;
using MQTTnet;
using MQTTnet.Packets;
using MQTTnet.Protocol;
using MQTTnet.Server;
using RigControl.Telemetry.Commands;
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

    /// <summary>User by which the host itself signs in.</summary>
    public const string HostUser = "rigcontrol-host";

    private const string RoleItem = "role";

    private readonly MqttServer _server;
    private readonly BrokerUsers _users;
    private readonly Rights _rights;
    private readonly Action<string> _denied;
    private readonly Func<MqttApplicationMessage, RefusalKind?> _take;
    private readonly string _hostId;
    private readonly byte[] _hostPassword = Encoding.ASCII.GetBytes(RandomNumberGenerator.GetHexString(32));
    private readonly HashSet<string> _clients = [];

    private EmbeddedBroker(int port, Topics topics, BrokerUsers users, string hostId, Func<MqttApplicationMessage, RefusalKind?> take, Action<string> denied)
    {
        (_users, _rights, _hostId, _take, _denied) = (users, new Rights(topics), hostId, take, denied);
        MqttServerOptions options = new MqttServerOptionsBuilder().WithDefaultEndpoint().WithDefaultEndpointPort(port)
            .WithDefaultEndpointBoundIPAddress(IPAddress.Loopback).WithDefaultEndpointBoundIPV6Address(IPAddress.None)
            .WithPersistentSessions(false).WithMaxPendingMessagesPerClient(256).WithPendingMessagesOverflowStrategy(MqttPendingMessagesOverflowStrategy.DropOldestQueuedMessage)
            .Build();
        _server = new MqttServerFactory().CreateMqttServer(options);
        _server.ValidatingConnectionAsync += Validate;
        _server.InterceptingPublishAsync += Publish;
        _server.InterceptingSubscriptionAsync += Subscribe;
        _server.ClientDisconnectedAsync += LetGo;
    }

    /// <summary>How the host signs in.</summary>
    public Credentials HostCredentials => new(HostUser, Encoding.ASCII.GetString(_hostPassword), null, null);

    /// <param name="hostId">Client id of the host, which nobody else may use.</param>
    /// <param name="take">Takes a command; returns why it was refused, or null. Called by the sender's own task.</param>
    /// <param name="denied">Hears which client was denied something.</param>
    /// <exception cref="LinkException">The port cannot be had.</exception>
    public static async Task<EmbeddedBroker> Start(
        int port, Topics topics, BrokerUsers users, string hostId, Func<MqttApplicationMessage, RefusalKind?> take, Action<string> denied)
    {
        EmbeddedBroker broker = new(port, topics, users, hostId, take, denied);
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

    // Counted when it is let in, and not when it has come: a crowd that comes in one moment is a crowd too. One place is the host's.
    private bool LetIn(string client)
    {
        lock (_clients)
            return _clients.Contains(client) || (_clients.Count < MostClients - 1 && _clients.Add(client));
    }

    private Task LetGo(ClientDisconnectedEventArgs args)
    {
        lock (_clients)
            _clients.Remove(args.ClientId);
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
            not Role.Host when !LetIn(string.IsNullOrEmpty(args.ClientId) ? args.AssignedClientIdentifier : args.ClientId) => MqttConnectReasonCode.QuotaExceeded,
            _ => MqttConnectReasonCode.Success,
        };
        return Task.CompletedTask;
    }

    // A command goes straight to the door and not into the host's queue, where a flood of others could push it out.
    private Task Publish(InterceptingPublishEventArgs args)
    {
        Role role = RoleOf(args.SessionItems);
        if (!_rights.MayPublish(role, args.ApplicationMessage.Topic))
        {
            Answer(args, RefusalKind.Denied);
            _denied(args.ClientId);
        }
        else if (role != Role.Host)
        {
            // Who really sent it, and not who the sender says it is.
            args.ApplicationMessage.UserProperties = [new MqttUserProperty(ClientProperty, Encoding.UTF8.GetBytes(args.ClientId).AsMemory())];
            Answer(args, _take(args.ApplicationMessage));
        }

        return Task.CompletedTask;
    }

    private static void Answer(InterceptingPublishEventArgs args, RefusalKind? refusal)
    {
        args.ProcessPublish = false;
        args.Response.ReasonCode = refusal switch
        {
            null => MqttPubAckReasonCode.Success,
            RefusalKind.Denied or RefusalKind.Retained => MqttPubAckReasonCode.NotAuthorized,
            RefusalKind.Malformed => MqttPubAckReasonCode.PayloadFormatInvalid,
            RefusalKind.Oversized => MqttPubAckReasonCode.QuotaExceeded,
            _ => MqttPubAckReasonCode.UnspecifiedError,
        };
        if (refusal is { } kind)
            args.Response.ReasonString = RefusalBook.Sentence(kind);
    }

    private Task Subscribe(InterceptingSubscriptionEventArgs args)
    {
        if (_rights.MaySubscribe(RoleOf(args.SessionItems), args.TopicFilter.Topic))
            return Task.CompletedTask;
        args.ProcessSubscription = false;
        args.Response.ReasonCode = MqttSubscribeReasonCode.NotAuthorized;
        _denied(args.ClientId);
        return Task.CompletedTask;
    }

    private static Role RoleOf(System.Collections.IDictionary items) => items[RoleItem] is Role role ? role : Role.None;
}

using System.Net.Sockets;
using System.Security.Authentication;
using MQTTnet;
using MQTTnet.Exceptions;
using MQTTnet.Formatter;

namespace RigControl.Telemetry.Links;

/// <summary>
/// Keeps a link to a broker: connects, lets somebody use it, and when it breaks builds a new one after a while. It never tries
/// again inside a handler, and never uses a client twice.
/// </summary>
/// <param name="tell">Hears what is wrong, once for as long as it stays the same, and that it is well again.</param>
internal sealed class KeptLink(BrokerAddress address, LinkTimes times, TimeProvider time, Action<string> tell)
{
    // Nothing that is meant for this program is larger; a broker does not send it more.
    private const uint LargestPacket = 64 * 1024;

    private readonly Backoff _backoff = new(times.FirstRetry, times.LongestRetry, Random.Shared.NextDouble);
    private volatile string? _trouble;
    private volatile string? _rejected;

    /// <summary>Whether a link stands and works.</summary>
    public bool IsUp { get; private set; }

    /// <summary>Whether the broker has taken the connection, working or not yet.</summary>
    public bool Stands { get; private set; }

    /// <summary>What is wrong with the link, or null.</summary>
    public string? Trouble => _trouble;

    /// <summary>Largest packet taken from the broker, bytes.</summary>
    public uint LargestIncoming { get; init; } = LargestPacket;

    /// <param name="prepare">Adds what belongs to one connection: client id, will.</param>
    /// <param name="serve">Uses the link until it breaks, by an exception, or is no longer wanted, by returning.</param>
    public async Task Run(Action<MqttClientOptionsBuilder> prepare, Func<IMqttClient, CancellationToken, Task> serve, CancellationToken ended)
    {
        while (!ended.IsCancellationRequested)
        {
            try
            {
                await Once(prepare, serve, ended).ConfigureAwait(false);
                return;
            }
#pragma warning disable CA1031 // Whatever breaks a link, the rig goes on and a new link is tried.
            catch (Exception) when (ended.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e)
#pragma warning restore CA1031
            {
                Note(Sentence(e));
            }

            await Task.Delay(_backoff.Next(), time, ended).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task Once(Action<MqttClientOptionsBuilder> prepare, Func<IMqttClient, CancellationToken, Task> serve, CancellationToken ended)
    {
        MqttClientOptionsBuilder builder = new MqttClientOptionsBuilder().WithProtocolVersion(MqttProtocolVersion.V500)
            .WithTcpServer(address.Host, address.Port).WithCleanStart().WithTimeout(times.Connect).WithMaximumPacketSize(LargestIncoming)
            .WithKeepAlivePeriod(TimeSpan.FromSeconds(10));
        Secure(builder);
        prepare(builder);
        IMqttClient client = new MqttClientFactory().CreateMqttClient();
        try
        {
            await Connect(client, builder.Build(), ended).ConfigureAwait(false);
            Stands = true;
            await serve(client, ended).ConfigureAwait(false);
        }
        finally
        {
            (IsUp, Stands) = (false, false);
            Abandon(client);
        }
    }

    private void Secure(MqttClientOptionsBuilder builder)
    {
        _rejected = null;
        Credentials credentials = address.Credentials;
        if (address.Tls)
            builder.WithTlsOptions(TlsSettings.Of(address, reason => _rejected = reason));
        else if (credentials.Password is not null && !address.IsLoopback)
            throw new LinkException($"the password is not sent to {address} in the clear; write `tls: yes`, or leave the password out");
        if (credentials.User is not null || credentials.Password is not null)
            builder.WithCredentials(credentials.User ?? "", credentials.Password ?? "");
    }

    private async Task Connect(IMqttClient client, MqttClientOptions options, CancellationToken ended)
    {
        using CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(ended);
        patience.CancelAfter(times.Connect);
        try
        {
            MqttClientConnectResult result = await client.ConnectAsync(options, patience.Token).ConfigureAwait(false);
            if (result.ResultCode != MqttClientConnectResultCode.Success)
                throw new LinkException(Refusal(result.ResultCode));
        }
#pragma warning disable CA1031 // The library says a cancelled wait in several ways; only the clock here knows that it was one.
        catch (Exception e) when (e is not LinkException && patience.IsCancellationRequested && !ended.IsCancellationRequested)
#pragma warning restore CA1031
        {
            throw new LinkException($"the broker {address} does not answer; is it running, and is it an MQTT broker?", e);
        }
    }

    /// <summary>Says that the link works, for whoever was told that it did not.</summary>
    public void Works()
    {
        _backoff.Reset();
        IsUp = true;
        if (_trouble is not null)
            tell($"the link to the broker {address} works again");
        _trouble = null;
    }

    private void Note(string sentence)
    {
        if (sentence == _trouble)
            return;
        _trouble = sentence;
        tell(sentence);
    }

    // A broken client can hang while it is closed: nobody waits for it.
    private static void Abandon(IMqttClient client) => _ = Task.Run(() =>
    {
        try
        {
            client.Dispose();
        }
#pragma warning disable CA1031 // It is thrown away; whatever it has to say, nobody can do anything about it.
        catch (Exception)
#pragma warning restore CA1031
        {
            // Thrown away all the same.
        }
    });

    private string Refusal(MqttClientConnectResultCode code) => code switch
    {
        MqttClientConnectResultCode.BadUserNameOrPassword or MqttClientConnectResultCode.NotAuthorized =>
            $"the broker {address} does not take this user and password; see that {Credentials.UserVariable} and {Credentials.PasswordVariable}, or the file of secrets, are right",
        _ => $"the broker {address} refuses the connection: {code}",
    };

    private string Sentence(Exception e) => e switch
    {
        LinkException => e.Message,
        _ when _rejected is { } reason => reason,
        _ when Find<MqttCommunicationTimedOutException>(e) is not null => $"the broker {address} does not answer; is it running, and is it an MQTT broker?",
        _ when Find<SocketException>(e) is { } socket => socket.SocketErrorCode == SocketError.ConnectionRefused
            ? $"nothing listens at {address}; start the broker, or mend broker and port in the rig file"
            : $"the broker {address} cannot be reached: {socket.Message}",
        _ when Find<AuthenticationException>(e) is { } authentication => $"no encrypted link to {address} could be made: {authentication.Message}",
        _ => $"the link to the broker {address} broke: {e.Message}",
    };

    private static T? Find<T>(Exception? e)
        where T : Exception => e is null or T ? (T?)e : Find<T>(e.InnerException);
}

using System.Security.Cryptography;
using MQTTnet;
using MQTTnet.Packets;
using RigControl.Telemetry.Links;

namespace RigControl.Telemetry.Watching;

/// <summary>Watches the rigs of a site. It only reads.</summary>
public sealed class SiteWatcher : IDisposable
{
    /// <summary>Most rigs that are shown.</summary>
    public const int MostRigs = 256;

    // Data of 64 channels is larger than any command.
    private const uint LargestPacket = 256 * 1024;

    private readonly Lock _lock = new();
    private readonly Dictionary<string, (RigGlimpse Glimpse, long? HeardAt)> _rigs = [];
    private readonly CancellationTokenSource _ended = new();
    private readonly TimeProvider _time;
    private readonly Task _link;
    private volatile string? _trouble = "not connected yet";

    private SiteWatcher(BrokerAddress broker, string site, LinkTimes times, TimeProvider time)
    {
        _time = time;
        KeptLink link = new(broker, times, time, trouble => _trouble = trouble) { LargestIncoming = LargestPacket };
        string id = "rigcontrol-watch-" + RandomNumberGenerator.GetHexString(8, lowercase: true);
        _link = Task.Run(() => link.Run(builder => builder.WithClientId(id), (client, ended) => Serve(client, site, link, ended), _ended.Token));
    }

    /// <summary>What is wrong with the link to the broker, as a sentence; null while it works.</summary>
    public string? Trouble => _trouble;

    /// <param name="site">The site, <c>[a-z0-9-]</c>.</param>
    public static SiteWatcher Start(BrokerAddress broker, string site, LinkTimes? times = null, TimeProvider? time = null) =>
        new(broker, site, times ?? new LinkTimes(), time ?? TimeProvider.System);

    /// <summary>The rigs by name.</summary>
    public IReadOnlyList<RigGlimpse> Rigs()
    {
        lock (_lock)
        {
            return [.. _rigs.Values.Select(r => r.Glimpse with { Age = r.HeardAt is { } at ? _time.GetElapsedTime(at) : null })
                .OrderBy(r => r.Rig, StringComparer.Ordinal)];
        }
    }

    public void Dispose()
    {
        _ended.Cancel();
        Task.WhenAny(_link, Task.Delay(TimeSpan.FromSeconds(2), _time)).GetAwaiter().GetResult();
        _ended.Dispose();
    }

    private async Task Serve(IMqttClient client, string site, KeptLink link, CancellationToken ended)
    {
        TaskCompletionSource gone = new(TaskCreationOptions.RunContinuationsAsynchronously);
        client.DisconnectedAsync += args =>
        {
            gone.TrySetException(new LinkException($"the broker ended the link ({args.Reason})"));
            return Task.CompletedTask;
        };
        client.ApplicationMessageReceivedAsync += args =>
        {
            Take(args.ApplicationMessage);
            return Task.CompletedTask;
        };
        string root = $"{Topics.Base}/{site}/+/";
        MqttClientSubscribeOptions all = new()
        {
            TopicFilters = [.. new[] { "status", "birth", "state", "data", "heartbeat", "trip/+" }.Select(kind => new MqttTopicFilter { Topic = root + kind })],
        };
        MqttClientSubscribeResult result = await client.SubscribeAsync(all, ended).ConfigureAwait(false);
        if (result.Items.Any(i => i.ResultCode > MqttClientSubscribeResultCode.GrantedQoS2))
            throw new LinkException($"the broker does not let this user read {root}#");
        link.Works();
        _trouble = null;
        await gone.Task.WaitAsync(ended).ConfigureAwait(false);
    }

    private void Take(MqttApplicationMessage message)
    {
        if (GlimpseReader.Split(message.Topic) is not { } topic)
            return;
        lock (_lock)
        {
            (RigGlimpse before, long? heardAt) = _rigs.TryGetValue(topic.Rig, out var known) ? known : (new RigGlimpse(topic.Rig), null);
            if (GlimpseReader.After(before, topic.Kind, message.Payload) is not { } after || (_rigs.Count >= MostRigs && known.Glimpse is null))
                return;
            // What the broker has kept says nothing about whether the rig lives.
            bool alive = !message.Retain && topic.Kind is "data" or "heartbeat";
            _rigs[topic.Rig] = (after, alive ? _time.GetTimestamp() : heardAt);
        }
    }
}

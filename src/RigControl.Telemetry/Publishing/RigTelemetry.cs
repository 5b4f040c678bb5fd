using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Telemetry.Broker;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Outage;

namespace RigControl.Telemetry.Publishing;

/// <summary>
/// Publishes a run over MQTT and takes stops from there. It is a sink beside the logbook: whatever happens to it is a note and
/// never a trip, and nothing it does can raise the rig's energy.
/// </summary>
public sealed class RigTelemetry : IRunSink, IDisposable
{
    private readonly TelemetrySettings _settings;
    private readonly TimeProvider _time;
    private readonly Topics _topics;
    private readonly NoteBoard _notes;
    private readonly StateFolder _folder;
    private readonly RunSight _sight;
    private readonly Collector _collector;
    private readonly RefusalBook _refusals;
    private readonly CommandIntake _intake;
    private readonly Speaker _speaker;
    private readonly CancellationTokenSource _ended = new();
    private readonly Task _link;
    private readonly Task _collecting;
    private volatile INetworkPort? _port;
    private volatile KeptLink? _kept;

    private RigTelemetry(TelemetrySettings settings, RunHeader header, TimeSpan scanPeriod, Action<string> note, TimeProvider time)
    {
        (_settings, _time) = (settings, time);
        _topics = new Topics(settings.Site, settings.Rig);
        _notes = new NoteBoard(note);
        _folder = StateFolder.Open(settings.StateRoot, settings.Site, settings.Rig, time, _notes.Put);
        if (_folder.Problem is { } problem)
            _notes.Put(problem);
        AnswerQueue answers = new();
        PendingStops pending = new(time, answers.Put);
        TripBoard trips = new();
        _sight = new RunSight(header, scanPeriod, settings.MostBlocks, time, pending);
        _collector = new Collector(_topics, header.Run, _sight, trips, _folder.Outbox, pending, time);
        _refusals = new RefusalBook(time, (command, text, client) => _port?.Tell(RefusalBook.EventName, command, text, client));
        _intake = new CommandIntake(_topics, time, _refusals, pending, () => _port, _collector.See, answers.Put) { TrustsBroker = settings.Broker is null };
        _speaker = new Speaker(new SpeakerParts(
            _topics, header, scanPeriod, _sight, trips, _collector, _folder, answers, _intake, _refusals, settings.Times, time, _notes.Put));
        _collecting = Task.Run(() => _collector.Run(_ended.Token));
        _link = Task.Run(settings.Broker is null ? RunEmbedded : () => Run(settings.Broker));
    }

    /// <summary>Begins to publish. Never fails: what goes wrong is noted and tried again.</summary>
    /// <param name="header">The run that is published.</param>
    /// <param name="scanPeriod">Time between scans.</param>
    /// <param name="note">Hears what a person should know while no run takes notes.</param>
    public static RigTelemetry Start(TelemetrySettings settings, RunHeader header, TimeSpan scanPeriod, Action<string> note, TimeProvider? time = null) =>
        new(settings, header, scanPeriod, note, time ?? TimeProvider.System);

    /// <summary>Whether a link stands and works.</summary>
    public bool IsLinked => _kept is { IsUp: true };

    /// <summary>Lets commands reach the run, and notes its record.</summary>
    public void Attach(INetworkPort port)
    {
        _port = port;
        _notes.Attach(port);
    }

    /// <inheritdoc/>
    public void See(in ScanRecord record, in InputImage image) => _sight.See(record, image);

    /// <inheritdoc/>
    public void Hear(RigEvent happened) => _sight.Hear(happened);

    /// <summary>The run is over: no command reaches it any more, and its figures are published.</summary>
    public void Finish(RunEnd end, IReadOnlyList<Figure> figures)
    {
        Detach();
        _collector.Finish(end, figures);
    }

    /// <summary>Says good-bye, waits a little for what is on its way, and leaves the rest for the next time.</summary>
    public void Dispose()
    {
        Detach();
        _collector.Collect();
        _speaker.Ending = true;
        // A broker that is not there is not waited for.
        if (_kept is { Trouble: null } or { Stands: true })
            Wait(_link);
        _ended.Cancel();
        Wait(_link);
        Wait(_collecting);
        _notes.Detach();
        _folder.Dispose();
    }

    // What hangs even now is left to the end of the process.
    private void Wait(Task task) => Task.WhenAny(task, Task.Delay(_settings.Times.Farewell, _time)).GetAwaiter().GetResult();

    private void Detach()
    {
        _refusals.Close();
        _port = null;
        _notes.Detach();
    }

    private async Task RunEmbedded()
    {
        string id = ClientId;
        Backoff backoff = new(_settings.Times.FirstRetry, _settings.Times.LongestRetry, Random.Shared.NextDouble);
        while (!_ended.IsCancellationRequested)
        {
            try
            {
                BrokerUsers users = _settings.Users is { } file ? BrokerUsers.FromFile(file) : BrokerUsers.Everyone;
                await using EmbeddedBroker broker = await EmbeddedBroker.Start(_settings.EmbeddedPort, _topics, users, id, _intake.Take, Denied).ConfigureAwait(false);
                await Run(new BrokerAddress { Host = "127.0.0.1", Port = _settings.EmbeddedPort, Credentials = broker.HostCredentials }).ConfigureAwait(false);
                return;
            }
            catch (LinkException e)
            {
                _notes.Put(e.Message);
                if (_speaker.Ending)
                    return;
            }

            await Task.Delay(backoff.Next(), _time, _ended.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private string ClientId => $"rigcontrol-{_settings.Site}-{_settings.Rig}";

    private void Denied(string client) => _refusals.Add(RefusalKind.Denied, "command", client);

    private Task Run(BrokerAddress address)
    {
        KeptLink link = _kept = new(address, _settings.Times, _time, _notes.Put);
        long session = 0;
        return link.Run(
            builder =>
            {
                session = _folder.NextSession();
                byte[] will = Payloads.StatusPayload.Of(Payloads.StatusPayload.Lost, session, _time.GetUtcNow());
                builder.WithClientId(ClientId).WithWillTopic(_topics.Status).WithWillPayload(will).WithWillRetain()
                    .WithWillQualityOfServiceLevel(MQTTnet.Protocol.MqttQualityOfServiceLevel.AtLeastOnce);
            },
            (client, ended) => _speaker.Serve(client, session, link.Works, ended),
            _ended.Token);
    }
}

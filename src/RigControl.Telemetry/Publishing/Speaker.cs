using MQTTnet;
using MQTTnet.Packets;
using MQTTnet.Protocol;
using RigControl.Model.Records;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Outage;
using RigControl.Telemetry.Payloads;
using RigControl.Telemetry.Sampling;

namespace RigControl.Telemetry.Publishing;

/// <summary>Uses one connection: listens for commands, greets, then says everything there is to say until the link breaks.</summary>
internal sealed class Speaker(SpeakerParts parts)
{
    // Fifty words a second: what a link in a hall carries, with the data beside it.
    private static readonly TimeSpan WordPeriod = TimeSpan.FromMilliseconds(20);

    // A little above ten a second, so that a backlog of blocks melts and the link still carries few messages.
    private static readonly TimeSpan BlockPeriod = TimeSpan.FromMilliseconds(60);

    private volatile bool _parted;
    private readonly Topics _topics = parts.Topics;
    private readonly HashSet<string> _standing = [.. parts.Folder.StandingTrips()];
    private readonly DataPayload _data = new(
        parts.Header.Channels, [.. parts.Header.Interlocks.Select(i => i.Id)], parts.Header.Run);

    /// <summary>Set to say good-bye once everything is said.</summary>
    public volatile bool Ending;

    public async Task Serve(IMqttClient client, long session, Action works, CancellationToken ended)
    {
        using CancellationTokenSource over = CancellationTokenSource.CreateLinkedTokenSource(ended);
        TaskCompletionSource gone = new(TaskCreationOptions.RunContinuationsAsynchronously);
        client.DisconnectedAsync += args => Leave(gone, args);
        client.ApplicationMessageReceivedAsync += args => Receive(args);
        Turn turn = new(client, session, over.Token);
        await Listen(turn).ConfigureAwait(false);
        await Greet(turn).ConfigureAwait(false);
        works();
        Task[] loops = [Words(turn), Blocks(turn), Beats(turn), gone.Task];
        Task first = await Task.WhenAny(loops).ConfigureAwait(false);
        await over.CancelAsync().ConfigureAwait(false);
        gone.TrySetResult();
        await Task.WhenAll(loops).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        await first.ConfigureAwait(false);
    }

    private Task Leave(TaskCompletionSource gone, MqttClientDisconnectedEventArgs args)
    {
        if (!_parted)
            gone.TrySetException(new LinkException($"the broker ended the link ({args.Reason})"));
        return Task.CompletedTask;
    }

    // On the link's receive loop: nothing may be published or waited for here.
    private Task Receive(MqttApplicationMessageReceivedEventArgs args)
    {
        parts.Intake.Take(args.ApplicationMessage);
        return Task.CompletedTask;
    }

    private async Task Listen(Turn turn)
    {
        MqttTopicFilter filter = new() { Topic = _topics.Commands, QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce, RetainAsPublished = true };
        MqttClientSubscribeResult result = await turn.Client.SubscribeAsync(new MqttClientSubscribeOptions { TopicFilters = [filter] }, turn.Ended).ConfigureAwait(false);
        if (result.Items.Any(i => i.ResultCode > MqttClientSubscribeResultCode.GrantedQoS2))
            parts.Note($"the broker does not let this rig hear commands: nobody can stop it from there; give it the right to read {_topics.Commands}");
    }

    // What the broker keeps for late readers may have gone with the broker: it is said anew on every connection.
    private async Task Greet(Turn turn)
    {
        bool begun = parts.Sight.State is not null;
        await SayStatus(turn, begun ? StatusPayload.Online : StatusPayload.Starting).ConfigureAwait(false);
        await Say(turn, Messages.Sure(_topics.Birth, BirthPayload.Of(parts.Header, parts.ScanPeriod, turn.Session), retain: true)).ConfigureAwait(false);
        parts.Collector.Collect();
        foreach (string id in _standing.Where(id => !parts.Trips.IsActive(id)).ToArray())
            await SayTrip(turn, id, []).ConfigureAwait(false);
        foreach (TripPayload trip in parts.Trips.Active())
            await SayTrip(turn, trip.Id, trip.Of(parts.Header.Run)).ConfigureAwait(false);
    }

    private async Task Words(Turn turn)
    {
        using PeriodicTimer timer = new(WordPeriod, parts.Time);
        StatePayload? said = null;
        while (await timer.WaitForNextTickAsync(turn.Ended).ConfigureAwait(false))
        {
            bool ending = Ending;
            said = await SayState(turn, said).ConfigureAwait(false);
            while (parts.Answers.TryTake(out Answer? answer))
                await SayAnswer(turn, answer!).ConfigureAwait(false);
            for (Outbound? next = parts.Folder.Outbox.Next(); next is not null && parts.Answers.IsEmpty; next = parts.Folder.Outbox.Next())
                await SayWord(turn, next).ConfigureAwait(false);
            if (ending && parts.Answers.IsEmpty && parts.Folder.Outbox.Count == 0)
            {
                await SayGoodbye(turn).ConfigureAwait(false);
                return;
            }
        }
    }

    private async Task<StatePayload?> SayState(Turn turn, StatePayload? said)
    {
        StatePayload? state = parts.Sight.State;
        if (state is null || ReferenceEquals(state, said))
            return said;
        if (said is null)
            await SayStatus(turn, StatusPayload.Online).ConfigureAwait(false);
        await Say(turn, Messages.Sure(_topics.State, state.Of(parts.Header.Run, turn.Session), retain: true)).ConfigureAwait(false);
        return state;
    }

    private async Task SayAnswer(Turn turn, Answer answer)
    {
        MqttApplicationMessage message = Messages.Sure(answer.Topic, answer.Payload(parts.Time.GetUtcNow()));
        message.CorrelationData = answer.CorrelationData;
        await Say(turn, message).ConfigureAwait(false);
    }

    private async Task SayWord(Turn turn, Outbound word)
    {
        switch (word.Kind)
        {
            case OutboundKind.Event:
                await Say(turn, Messages.Sure(_topics.Event, word.Payload, contentType: EventPayload.ContentType)).ConfigureAwait(false);
                break;
            case OutboundKind.Figure:
                await Say(turn, Messages.Sure(_topics.Figure, word.Payload)).ConfigureAwait(false);
                break;
            case OutboundKind.TripCleared when !parts.Trips.IsActive(word.Subject):
            case OutboundKind.Trip when parts.Trips.IsActive(word.Subject) && word.Run == parts.Header.Run:
                await SayTrip(turn, word.Subject, word.Payload).ConfigureAwait(false);
                break;
            default:
                // History: told in its order, but not kept by the broker as if it were so now.
                await Say(turn, Messages.Sure(_topics.Trip(word.Subject), word.Payload)).ConfigureAwait(false);
                break;
        }

        parts.Folder.Outbox.Done(word);
    }

    private async Task SayTrip(Turn turn, string id, byte[] payload)
    {
        bool changed = payload.Length > 0 ? _standing.Add(id) : _standing.Remove(id);
        // Remembered before it stands there, so that a killed process leaves none behind.
        if (changed && payload.Length > 0)
            parts.Folder.RememberTrips(_standing);
        await Say(turn, Messages.Sure(_topics.Trip(id), payload, retain: true)).ConfigureAwait(false);
        if (changed && payload.Length == 0)
            parts.Folder.RememberTrips(_standing);
    }

    private Task SayStatus(Turn turn, string status) =>
        Say(turn, Messages.Sure(_topics.Status, StatusPayload.Of(status, turn.Session, parts.Time.GetUtcNow()), retain: true));

    // The broker sends no will for a link that is ended politely.
    private async Task SayGoodbye(Turn turn)
    {
        await SayStatus(turn, StatusPayload.Offline).ConfigureAwait(false);
        _parted = true;
        await turn.Client.DisconnectAsync(new MqttClientDisconnectOptions(), turn.Ended).ConfigureAwait(false);
    }

    private async Task Blocks(Turn turn)
    {
        using PeriodicTimer timer = new(BlockPeriod, parts.Time);
        while (await timer.WaitForNextTickAsync(turn.Ended).ConfigureAwait(false))
        {
            if (parts.Sight.Blocks.Take() is not { } block)
                continue;
            ReadOnlyMemory<byte> payload = _data.Of(block, turn.Session);
            parts.Sight.Blocks.Return(block);
            await turn.Client.PublishAsync(Messages.Once(_topics.Data, payload), turn.Ended).ConfigureAwait(false);
        }
    }

    // Ordinary data keeps the link busy and says nothing about whether anybody takes it: the acknowledgement does.
    private async Task Beats(Turn turn)
    {
        using PeriodicTimer timer = new(parts.Times.Heartbeat, parts.Time);
        while (await timer.WaitForNextTickAsync(turn.Ended).ConfigureAwait(false))
        {
            HeartbeatPayload beat = new(
                parts.Sight.Scan, parts.Sight.TakeLateness(), parts.Sight.Blocks.Dropped, parts.Folder.Outbox.GivenUp + parts.Sight.Lost, parts.Refusals.Count);
            await Say(turn, Messages.Sure(_topics.Heartbeat, beat.Of(turn.Session, parts.Time.GetUtcNow()))).ConfigureAwait(false);
        }
    }

    private async Task Say(Turn turn, MqttApplicationMessage message)
    {
        using CancellationTokenSource patience = new(parts.Times.Acknowledgement, parts.Time);
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(turn.Ended, patience.Token);
        try
        {
            MqttClientPublishResult result = await turn.Client.PublishAsync(message, either.Token).ConfigureAwait(false);
            if (!result.IsSuccess)
                parts.Note($"the broker does not take {message.Topic} ({result.ReasonCode}); give this rig the right to publish below {_topics.Root}");
        }
#pragma warning disable CA1031 // The library says a cancelled wait in several ways; only the clock here knows whose it was.
        catch (Exception e) when (patience.IsCancellationRequested && !turn.Ended.IsCancellationRequested)
#pragma warning restore CA1031
        {
            throw new LinkException($"the broker has acknowledged nothing for {parts.Times.Acknowledgement.TotalSeconds:0.#} s; a new link is made", e);
        }
    }

    /// <summary>One connection.</summary>
    private sealed record Turn(IMqttClient Client, long Session, CancellationToken Ended);
}

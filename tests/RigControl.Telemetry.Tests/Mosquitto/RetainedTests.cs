using System.Diagnostics;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Mosquitto;

/// <summary>What the broker keeps for late readers, and what it says when the host is gone; read by the broker's own client.</summary>
public sealed class RetainedTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task Every_topic_comes_as_its_schema_says_and_only_what_is_to_be_kept_is_kept()
    {
        using Support.Mosquitto broker = new(_folder);
        using Published rig = Start(broker);
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        rig.Toy.Ticks(50);
        await Until.True(() => all.Of(rig.Topics.State).Any(), "the state");
        Play(rig, broker);
        string[] every = [.. new[] { "status", "birth", "state", "data", "event", "trip/lid-closed", "figure", "heartbeat", "receipt" }.Select(t => $"{rig.Topics.Root}/{t}")];
        await Until.True(() => { rig.Toy.Tick(RigState.SafeStop, latched: 1); return every.All(t => all.Of(t).Any()); }, "every topic");
        foreach ((_, string topic, string payload) in all.Messages.Where(m => !m.Topic.Contains("/command/", StringComparison.Ordinal)))
            Schemas.Check(rig.Topics, topic, payload);
        Support.Mosquitto.Heard late = broker.Subscribe("rigcontrol/#", "--retained-only");
        string[] kept = [rig.Topics.Status, rig.Topics.Birth, rig.Topics.State, rig.Topics.Trip("lid-closed")];
        await Until.True(() => kept.All(t => late.Of(t).Any()), "what is kept");
        Assert.Equal(kept.Order(), late.Messages.Select(m => m.Topic).Distinct().Order());
    }

    [Fact]
    public async Task A_host_that_ends_says_offline_and_the_broker_does_not_say_lost()
    {
        using Support.Mosquitto broker = new(_folder);
        using Published rig = Start(broker);
        Support.Mosquitto.Heard status = broker.Subscribe("rigcontrol/1/workshop/toy-box/status");
        rig.Toy.Tick();
        await Until.True(() => status.Of(rig.Topics.Status).Any(s => s.Contains("online", StringComparison.Ordinal)), "online");
        rig.End();
        await Until.True(() => status.Of(rig.Topics.Status).Any(s => s.Contains("offline", StringComparison.Ordinal)), "offline");
        // The broker would have sent the will before it answers anything new.
        broker.Publish(rig.Topics.Status, """{"status":"marker"}""");
        await Until.True(() => status.Of(rig.Topics.Status).Any(s => s.Contains("marker", StringComparison.Ordinal)), "the marker");
        Assert.DoesNotContain(status.Of(rig.Topics.Status), s => s.Contains("lost", StringComparison.Ordinal));
    }

    [Fact]
    [Trait("Requirement", "SAF-076")]
    public async Task A_killed_host_is_called_lost_and_the_next_one_clears_the_trips_it_left_standing()
    {
        using Support.Mosquitto broker = new(_folder);
        using Process host = EndlessHost.Start(broker.Port, _folder.Path);
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        Topics topics = new("workshop", "toy-box");
        await Until.True(() => all.Of(topics.Trip("lid-closed")).Any(), "the trip");
        host.Kill();
        await host.WaitForExitAsync(TestContext.Current.CancellationToken);
        await Until.True(() => all.Of(topics.Status).Any(s => s.Contains("\"lost\"", StringComparison.Ordinal)), "lost");
        Support.Mosquitto.Heard late = broker.Subscribe(topics.Root + "/#");
        await Until.True(() => late.Of(topics.Trip("lid-closed")).Any() && late.Of(topics.Status).Any(s => s.Contains("\"lost\"", StringComparison.Ordinal)), "what is kept of a lost host");
        using Published next = Start(broker);
        next.Toy.Tick();
        await Until.True(() => late.Of(topics.Trip("lid-closed")).Contains(""), "the stale trip cleared");
        await Until.True(() => late.Of(topics.Status).Any(s => s.Contains("\"session\":2", StringComparison.Ordinal)), "the session risen");
    }

    [Fact]
    public async Task A_link_that_breaks_without_a_good_bye_is_called_lost_until_it_is_made_anew()
    {
        using Support.Mosquitto broker = new(_folder);
        using Relay relay = new(broker.Port);
        using Published rig = Start(broker, relay.Port);
        Support.Mosquitto.Heard status = broker.Subscribe("rigcontrol/+/+/+/status");
        rig.Toy.Tick();
        await Until.True(() => status.Messages.Any(m => m.Payload.Contains("online", StringComparison.Ordinal)), "online");
        relay.Close();
        await Until.True(() => status.Messages.Any(m => m.Payload.Contains("lost", StringComparison.Ordinal)), "lost");
        relay.Open();
        await Until.True(() => status.Messages.Last().Payload.Contains("online", StringComparison.Ordinal), "online again");
        await Until.True(() => rig.Noted.Any(n => n.Contains("works again", StringComparison.Ordinal)), "the note that all is well");
    }

    public void Dispose() => _folder.Dispose();

    private Published Start(Support.Mosquitto broker, int? port = null) =>
        new Published(_folder.Path, new BrokerAddress { Host = "127.0.0.1", Port = port ?? broker.Port }).Attached();

    private static void Play(Published rig, Support.Mosquitto broker)
    {
        rig.Toy.Say("safe-stop");
        rig.Toy.Trip();
        rig.Toy.Tick(RigState.SafeStop, latched: 1);
        Assert.Equal(0, broker.Publish(rig.Topics.Stop, Orders.Stop()));
        rig.Telemetry.Finish(new RunEnd(RunOutcome.SafeStop, DateTimeOffset.UtcNow, null), [new Figure("peak-speed", 1, "rpm", 1, (0, 2), 1, "highest", null)]);
    }
}

using System.Globalization;
using System.Text.Json;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Mosquitto;

/// <summary>Brokers die, links go silent, and what had to arrive arrives.</summary>
public sealed class OutageTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task A_broker_killed_and_restarted_in_mid_run_costs_no_event_and_not_their_order()
    {
        using Support.Mosquitto broker = new(_folder);
        using Relay relay = new(broker.Port);
        using Published rig = Start(relay.Port);
        Support.Mosquitto.Heard before = broker.Subscribe(rig.Topics.Event);
        await Until.True(() => { Say(rig, 1); return before.Messages.Count > 3; }, "events");
        Say(rig, 50);
        broker.Kill();
        relay.Close();
        Say(rig, 50);
        broker.Start();
        Support.Mosquitto.Heard after = broker.Subscribe("#");
        await Until.True(() => { broker.Publish("probe", "x"); return after.Of("probe").Any(); }, "the reader at the new broker");
        Say(rig, 20);
        relay.Open();
        Say(rig, 20);
        await Until.True(() => after.Of(rig.Topics.Event).Any(e => Number(e) == _said), "the last event");
        // The first reader finds its way to the new broker by itself, some time later: each is in order, and together they have all.
        int[] first = [.. before.Messages.Select(m => Number(m.Payload)).Distinct()];
        int[] second = [.. after.Of(rig.Topics.Event).Select(Number).Distinct()];
        Assert.Equal(first.Order(), first);
        Assert.Equal(Enumerable.Range(second[0], _said - second[0] + 1), second);
        Assert.Equal(Enumerable.Range(first[0], _said - first[0] + 1), first.Union(second).Order());
    }

    [Fact]
    public async Task After_a_broker_without_memory_came_back_a_late_reader_sees_everything_that_is_kept()
    {
        using Support.Mosquitto broker = new(_folder);
        using Published rig = Start(broker.Port);
        rig.Toy.Trip();
        rig.Toy.Tick(RigState.SafeStop, latched: 1);
        Support.Mosquitto.Heard before = broker.Subscribe("rigcontrol/#");
        await Until.True(() => before.Of(rig.Topics.Trip("lid-closed")).Any(), "the trip");
        broker.Kill();
        broker.Start();
        Support.Mosquitto.Heard late = broker.Subscribe("rigcontrol/#");
        string[] kept = [rig.Topics.Status, rig.Topics.Birth, rig.Topics.State, rig.Topics.Trip("lid-closed")];
        await Until.True(() => kept.All(t => late.Of(t).Any(p => p.Length > 0)), "everything that is kept");
    }

    [Fact]
    public async Task What_an_outage_held_back_is_sent_by_the_next_process_in_order_and_an_old_trip_is_told_but_not_kept()
    {
        int closed = Ports.Free();
        using (Published first = new Published(_folder.Path, new BrokerAddress { Host = "127.0.0.1", Port = closed }).Attached())
        {
            first.Toy.Say("one");
            first.Toy.Trip();
            first.Toy.Tick(RigState.SafeStop, latched: 1);
            first.Toy.Say("two");
            await Until.True(() => first.Noted.Any(), "the note");
            Assert.Contains("nothing listens", first.Noted.First());
            first.Telemetry.Finish(new RunEnd(RunOutcome.SafeStop, DateTimeOffset.UtcNow, null), []);
        }

        using Support.Mosquitto broker = new(_folder);
        Support.Mosquitto.Heard all = broker.Subscribe("#");
        await Until.True(() => { broker.Publish("probe", "x"); return all.Of("probe").Any(); }, "the reader");
        using Published second = new Published(_folder.Path, new BrokerAddress { Host = "127.0.0.1", Port = broker.Port }, header: Toy.Header(run: "second")).Attached();
        second.Toy.Tick();
        Topics topics = second.Topics;
        await Until.True(() => all.Of(topics.Figure).Any(), "the figures of the run before");
        string[] told = [.. all.Messages.Where(m => m.Topic == topics.Event || m.Topic == topics.Figure || m.Topic == topics.Trip("lid-closed")).Select(m => m.Topic[topics.Root.Length..])];
        Assert.Equal(["/event", "/event", "/trip/lid-closed", "/event", "/figure"], told);
        Support.Mosquitto.Heard late = broker.Subscribe("rigcontrol/#");
        await Until.True(() => late.Of(topics.State).Any(), "the state");
        Assert.Empty(late.Of(topics.Trip("lid-closed")));
    }

    [Fact]
    [Trait("Requirement", "SAF-076")]
    public async Task A_link_that_stands_and_carries_nothing_is_noticed_by_the_missing_acknowledgement_and_built_anew()
    {
        using Support.Mosquitto broker = new(_folder);
        using Relay relay = new(broker.Port);
        using Published rig = Start(relay.Port);
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        rig.Toy.Tick();
        await Until.True(() => all.Of(rig.Topics.Heartbeat).Any(), "a heartbeat");
        relay.GoSilent();
        await Until.True(() => rig.Noted.Any(n => n.Contains("acknowledged nothing", StringComparison.Ordinal)), "the note");
        rig.Toy.Say("after the silence");
        await Until.True(() => all.Of(rig.Topics.Event).Any(e => e.Contains("after the silence", StringComparison.Ordinal)), "the event over a new link");
        Assert.True(relay.Made >= 2);
    }

    [Fact]
    [Trait("Requirement", "SAF-070")]
    public async Task A_broker_that_accepts_and_never_reads_costs_blocks_and_nothing_else()
    {
        using System.Net.Sockets.TcpListener deaf = new(System.Net.IPAddress.Loopback, 0);
        deaf.Start();
        int port = ((System.Net.IPEndPoint)deaf.LocalEndpoint).Port;
        using Published rig = new Published(
            _folder.Path, new BrokerAddress { Host = "127.0.0.1", Port = port }, times: Published.Quick with { Connect = TimeSpan.FromMilliseconds(200) }).Attached();
        long before = 0;
        await Until.True(() =>
        {
            rig.Toy.Ticks(1000);
            before = rig.Toy.Scan;
            return rig.Noted.Any();
        }, "the note");
        Assert.Contains("does not answer", rig.Noted.First());
        Assert.True(before >= 1000);
    }

    [Fact]
    [Trait("Requirement", "SAF-070")]
    public async Task A_broker_that_stops_reading_costs_blocks_and_nothing_else()
    {
        using Support.Mosquitto broker = new(_folder);
        using Relay relay = new(broker.Port);
        using Published rig = Start(relay.Port);
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        rig.Toy.Tick();
        await Until.True(() => all.Of(rig.Topics.Heartbeat).Any(), "a heartbeat");
        relay.StopReading();
        // Blocks by the hundred, faster than any link: what the link cannot take is dropped where it is made.
        await Until.True(() => { rig.Toy.Ticks(2000); return rig.Noted.Any(n => n.Contains("acknowledged nothing", StringComparison.Ordinal)); }, "the note");
        rig.Toy.Say("after the silence");
        await Until.True(() => all.Of(rig.Topics.Event).Any(e => e.Contains("after the silence", StringComparison.Ordinal)), "the event over a new link");
        await Until.True(() => Of(all.Of(rig.Topics.Heartbeat).Last(), "dropped") > 0, "the count of what was dropped");
        Assert.Equal(0, Of(all.Of(rig.Topics.Heartbeat).Last(), "undelivered"));
        Assert.Empty(rig.Port.Stops);
    }

    [Fact]
    public async Task A_command_that_the_broker_kept_from_long_ago_is_refused_when_the_host_comes()
    {
        using Support.Mosquitto broker = new(_folder);
        Topics topics = new("workshop", "toy-box");
        Assert.Equal(0, broker.Publish(topics.Stop, Orders.Stop(), "-r"));
        using Published rig = Start(broker.Port);
        await Until.True(() => rig.Port.Told.Any(t => t.Name == EventNames.NetworkRefusal), "the refusal");
        Assert.Empty(rig.Port.Stops);
        Assert.Equal(0, broker.Publish(topics.Stop, Orders.Stop()));
        await Until.True(() => rig.Port.Stops.Count == 1, "a fresh stop");
        // Kept or not, it was meant to be kept: nobody knows when it was sent.
        Assert.Equal(0, broker.Publish(topics.Stop, Orders.Stop(), "-r"));
        Assert.Equal(0, broker.Publish(topics.Stop, Orders.Stop(client: "after")));
        await Until.True(() => rig.Port.Stops.Any(s => s.Client == "after"), "the stop after it");
        Assert.Equal(2, rig.Port.Stops.Count);
    }

    [Fact]
    [Trait("Requirement", "SAF-074")]
    public async Task A_hundred_thousand_hostile_messages_through_a_real_broker_have_no_effect_but_a_count()
    {
        using Support.Mosquitto broker = new(_folder);
        using Published rig = Start(broker.Port);
        await using Reader watching = await Reader.At(broker.Port, "watching");
        await watching.Subscribe(rig.Topics.Heartbeat);
        await using Reader hostile = await Reader.At(broker.Port, "hostile");
        await Until.True(() => watching.Of(rig.Topics.Heartbeat).Any(), "a heartbeat");
        await Flood.Send(hostile, rig.Topics, 100_000);
        // A broker may drop what comes too fast; what arrived was refused.
        await Until.True(() => Of(watching.Of(rig.Topics.Heartbeat).Last(), "refused") > 0, "the count");
        Assert.Empty(rig.Port.Stops);
        Assert.InRange(rig.Port.Told.Count, 1, 60);
        await Until.True(() => { broker.Publish(rig.Topics.Stop, Orders.Stop()); return !rig.Port.Stops.IsEmpty; }, "a real stop after them");
    }

    public void Dispose() => _folder.Dispose();

    private int _said;

    private Published Start(int port) => new Published(_folder.Path, new BrokerAddress { Host = "127.0.0.1", Port = port }).Attached();

    private void Say(Published rig, int count)
    {
        for (int i = 0; i < count; i++)
            rig.Toy.Say((++_said).ToString(CultureInfo.InvariantCulture));
    }

    private static int Number(string payload) => int.Parse(JsonDocument.Parse(payload).RootElement.GetProperty("data").GetProperty("text").GetString()!, CultureInfo.InvariantCulture);

    private static long Of(string heartbeat, string count) => JsonDocument.Parse(heartbeat).RootElement.GetProperty(count).GetInt64();
}

using System.Text;
using MQTTnet;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Broker;

/// <summary>The embedded broker with clients that behave, and with some that do not.</summary>
public sealed class EmbeddedBrokerTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly int _port = Ports.Free();

    [Fact]
    public async Task A_late_reader_sees_status_birth_state_and_trips_at_once_and_each_as_its_schema_says()
    {
        using Published rig = Start();
        rig.Toy.Trip();
        rig.Toy.Tick(RigState.SafeStop, latched: 1);
        await using Reader first = await Reader.At(_port, "first");
        await first.Subscribe("#");
        await Until.True(() => first.Of(rig.Topics.Trip("lid-closed")).Any() && first.Of(rig.Topics.State).Any(), "the trip");
        await using Reader late = await Reader.At(_port, "late");
        await late.Subscribe("#");
        string[] kept = [rig.Topics.Status, rig.Topics.Birth, rig.Topics.State, rig.Topics.Trip("lid-closed")];
        await Until.True(() => kept.All(t => late.Messages.Any(m => m.Topic == t && m.Retained)), "everything that is kept");
        foreach ((string topic, string payload, _, _) in late.Messages)
            Schemas.Check(rig.Topics, topic, payload);
    }

    [Fact]
    public async Task A_trip_that_was_let_go_is_no_longer_kept()
    {
        using Published rig = Start();
        await using Reader reader = await Reader.At(_port);
        await reader.Subscribe("#");
        rig.Toy.Trip();
        rig.Toy.Tick(RigState.SafeStop, latched: 1);
        await Until.True(() => reader.Of(rig.Topics.Trip("lid-closed")).Any(), "the trip");
        rig.Toy.Tick(RigState.Idle);
        await Until.True(() => reader.Of(rig.Topics.Trip("lid-closed")).Any(p => p.Length == 0), "its end");
        await using Reader late = await Reader.At(_port, "late");
        await late.Subscribe("#");
        await Until.True(() => late.Of(rig.Topics.State).Any(), "the state");
        Assert.Empty(late.Of(rig.Topics.Trip("lid-closed")));
    }

    [Fact]
    [Trait("Requirement", "SAF-071")]
    public async Task A_stop_gets_one_receipt_with_what_the_sender_put_beside_it()
    {
        using Published rig = Start();
        rig.Toy.Tick();
        await using Reader tablet = await Reader.At(_port, "tablet");
        string own = rig.Topics.Receipt + "/tablet";
        await tablet.Subscribe(own);
        await tablet.Publish(rig.Topics.Stop, Encoding.UTF8.GetBytes(Orders.Stop("c77")), answer: own, correlation: [9, 9]);
        await Until.True(() => tablet.Of(own).Any(), "the receipt");
        Assert.Equal("tablet", Assert.Single(rig.Port.Stops).Client);
        (_, string payload, bool retained, byte[]? correlation) = tablet.Messages.Single();
        Assert.True(Schemas.Accepts("receipt", payload));
        Assert.Contains("\"correlation\":\"c77\"", payload);
        Assert.Contains("\"accepted\":true", payload);
        Assert.False(retained);
        Assert.Equal([9, 9], correlation);
    }

    [Fact]
    [Trait("Requirement", "SAF-071")]
    public async Task A_stop_that_became_one_with_the_bench_s_own_is_answered_as_taken()
    {
        using Published rig = Start();
        rig.Port.OnStop = id => rig.Toy.Answer(new Receipt(id, CommandKind.Stop, CommandSource.Bench, RefusalReason.None));
        rig.Toy.Tick();
        await using Reader tablet = await Reader.At(_port, "tablet");
        await tablet.Subscribe(rig.Topics.Receipt);
        await tablet.Publish(rig.Topics.Stop, Orders.Stop());
        await Until.True(() => tablet.Of(rig.Topics.Receipt).Any(), "the receipt");
        Assert.Contains("\"accepted\":true", tablet.Of(rig.Topics.Receipt).Single());
    }

    [Fact]
    public async Task An_acknowledged_trip_says_who_has_seen_it_and_stays()
    {
        using Published rig = Start();
        rig.Toy.Trip();
        rig.Toy.Tick(RigState.SafeStop, latched: 1);
        await using Reader tablet = await Reader.At(_port, "tablet");
        await tablet.Subscribe("#");
        await tablet.Publish(rig.Topics.Acknowledge, Orders.Acknowledge("lid-closed"));
        await Until.True(() => tablet.Of(rig.Topics.Trip("lid-closed")).Any(p => p.Contains("\"seenBy\":[\"tablet\"]", StringComparison.Ordinal)), "the trip as seen");
        Assert.Contains(rig.Port.Told, t => t.Name == EventNames.TripSeen);
        Assert.Empty(rig.Port.Stops);
    }

    [Fact]
    [Trait("Requirement", "SAF-075")]
    public async Task A_reader_cannot_command_and_nobody_but_the_host_can_speak_for_the_rig()
    {
        using Published rig = Start("operator anna stop-it\nreader screen look\n");
        rig.Toy.Tick();
        await using Reader screen = await Reader.At(_port, "screen-1", "screen", "look");
        await using Reader anna = await Reader.At(_port, "anna-1", "anna", "stop-it");
        Assert.Equal(MqttClientPublishReasonCode.NotAuthorized, await screen.Publish(rig.Topics.Stop, Orders.Stop()));
        foreach (string topic in new[] { rig.Topics.State, rig.Topics.Status, rig.Topics.Receipt, rig.Topics.Root + "/command/start", "rigcontrol/1/workshop/other/command/stop" })
            Assert.Equal(MqttClientPublishReasonCode.NotAuthorized, await anna.Publish(topic, "{}"));
        Assert.Equal(MqttClientPublishReasonCode.NotAuthorized, await anna.Publish(rig.Topics.Stop, Orders.Stop(), retain: true));
        Assert.Equal(MqttClientSubscribeResultCode.NotAuthorized, await screen.Subscribe(rig.Topics.Commands));
        Assert.Empty(rig.Port.Stops);
        Assert.Contains(rig.Port.Told, t => t is { Name: EventNames.NetworkRefusal });
        Assert.Equal(MqttClientPublishReasonCode.Success, await anna.Publish(rig.Topics.Stop, Orders.Stop()));
        await Until.True(() => rig.Port.Stops.Count == 1, "the stop of somebody who may");
    }

    [Theory]
    [Trait("Requirement", "SAF-075")]
    [InlineData("anna", "wrong")]
    [InlineData("nobody", "stop-it")]
    [InlineData("rigcontrol-host", "stop-it")]
    [InlineData("", "")]
    public async Task A_wrong_user_or_password_gets_nowhere(string user, string password)
    {
        using Published rig = Start("operator anna stop-it\n");
        await using Reader ready = await Reader.At(_port, "ready", "anna", "stop-it");
        (_, MqttClientConnectResultCode code) = await Reader.Try(_port, "intruder", user, password);
        Assert.Equal(MqttClientConnectResultCode.BadUserNameOrPassword, code);
    }

    [Fact]
    [Trait("Requirement", "SAF-075")]
    public async Task Nobody_can_take_the_host_s_place_at_the_broker()
    {
        using Published rig = Start();
        rig.Toy.Tick();
        await using Reader reader = await Reader.At(_port);
        await reader.Subscribe(rig.Topics.Heartbeat);
        (_, MqttClientConnectResultCode code) = await Reader.Try(_port, "rigcontrol-workshop-toy-box");
        Assert.Equal(MqttClientConnectResultCode.ClientIdentifierNotValid, code);
        int before = reader.Of(rig.Topics.Heartbeat).Count();
        await Until.True(() => reader.Of(rig.Topics.Heartbeat).Count() > before + 2, "the host going on");
        Assert.DoesNotContain(reader.Of(rig.Topics.Heartbeat), p => p.Contains("\"session\":2", StringComparison.Ordinal));
    }

    [Fact]
    [Trait("Requirement", "SAF-075")]
    public async Task A_last_will_is_bound_by_the_same_rights()
    {
        using Published rig = Start();
        rig.Toy.Tick();
        await using Reader reader = await Reader.At(_port);
        await reader.Subscribe("#");
        (Reader dying, _) = await Reader.Try(_port, "dying", more: o => o.WithWillTopic(rig.Topics.Status).WithWillPayload("""{"status":"lost","session":1}""").WithWillRetain());
        dying.Vanish();
        (Reader dying2, _) = await Reader.Try(_port, "dying2", more: o => o.WithWillTopic(rig.Topics.Stop).WithWillPayload(Orders.Stop("will")));
        dying2.Vanish();
        // A stop as a last will is a stop: it comes, and after it the first one must have been dealt with.
        await Until.True(() => rig.Port.Stops.Count == 1, "the stop of the one who died");
        Assert.DoesNotContain(reader.Of(rig.Topics.Status), p => p.Contains("lost", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_client_without_a_name_is_given_one()
    {
        using Published rig = Start();
        await using Reader ready = await Reader.At(_port);
        (Reader nameless, MqttClientConnectResultCode code) = await Reader.Try(_port, "");
        Assert.Equal(MqttClientConnectResultCode.Success, code);
        await nameless.DisposeAsync();
    }

    [Fact]
    [Trait("Requirement", "SAF-070")]
    public async Task A_port_in_use_ends_in_a_sentence_and_the_run_goes_on()
    {
        using System.Net.Sockets.TcpListener occupied = new(System.Net.IPAddress.Loopback, _port);
        occupied.Start();
        using Published rig = Start();
        rig.Toy.Ticks(2000);
        await Until.True(() => rig.Noted.Any(), "the sentence");
        Assert.Contains("another program has it", rig.Noted.First());
        occupied.Stop();
        await using Reader reader = await Reader.At(_port);
        await reader.Subscribe("#");
        await Until.True(() => reader.Of(rig.Topics.State).Any(), "the state, once the port is free");
    }

    [Fact]
    [Trait("Requirement", "SAF-074")]
    public async Task A_hundred_thousand_hostile_messages_have_no_effect_but_a_count()
    {
        using Published rig = Start();
        rig.Toy.Tick();
        await using Reader watching = await Reader.At(_port, "watching");
        await watching.Subscribe(rig.Topics.Heartbeat);
        await using Reader hostile = await Reader.At(_port, "hostile");
        const int Messages = 100_000;
        await Flood.Send(hostile, rig.Topics, Messages);
        await Until.True(() => watching.Of(rig.Topics.Heartbeat).Any(p => p.Contains($"\"refused\":{Messages},", StringComparison.Ordinal)), "the count of all of them");
        Assert.Empty(rig.Port.Stops);
        Assert.InRange(rig.Port.Told.Count, 1, 40);
        rig.Toy.Tick(RigState.Hold);
        await hostile.Publish(rig.Topics.Stop, Orders.Stop());
        await Until.True(() => rig.Port.Stops.Count == 1, "a real stop after them");
    }

    public void Dispose() => _folder.Dispose();

    private Published Start(string? users = null) =>
        new Published(_folder.Path, embeddedPort: _port, users: users is null ? null : _folder.Write("users", users)).Attached();
}

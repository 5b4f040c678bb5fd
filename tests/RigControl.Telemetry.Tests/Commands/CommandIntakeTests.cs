using System.Reflection;
using System.Text;
using RigControl.Model.Records;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Commands;

/// <summary>The network may stop and acknowledge; everything else is refused, counted and recorded.</summary>
public class CommandIntakeTests
{
    [Fact]
    [Trait("Requirement", "SAF-071")]
    public void A_stop_reaches_the_run_with_the_client_s_name_and_gets_one_receipt()
    {
        Door door = new();
        door.Take(door.Topics.Stop, door.Stop("c1"), correlation: [1, 2, 3]);
        Assert.Equal((1, "tablet"), Assert.Single(door.Port.Stops));
        Answer answer = Assert.Single(door.Answers);
        Assert.Equal((null, "c1", door.Topics.Receipt), (answer.Reason, answer.Command.Correlation, answer.Topic));
        Assert.Equal([1, 2, 3], answer.CorrelationData);
    }

    [Fact]
    [Trait("Requirement", "SAF-072")]
    public void The_door_for_the_network_has_a_stop_and_a_word_and_nothing_that_could_raise_energy()
    {
        string[] members = [.. typeof(INetworkPort).GetMembers(BindingFlags.Public | BindingFlags.Instance).Select(m => m.Name).Order()];
        Assert.Equal(["Stop", "Tell"], members);
    }

    [Theory]
    [Trait("Requirement", "SAF-072")]
    [InlineData("arm")]
    [InlineData("start")]
    [InlineData("reset")]
    [InlineData("unlock")]
    [InlineData("stop/now")]
    [InlineData("STOP")]
    public void There_is_no_command_but_stop_and_acknowledge(string name)
    {
        Door door = new();
        door.Take($"{door.Topics.Root}/command/{name}", door.Stop("c1"));
        Assert.Empty(door.Port.Stops);
        Assert.Empty(door.Answers);
        Assert.Equal(1, door.Refusals.Count);
    }

    [Fact]
    public void An_acknowledgement_of_an_active_trip_is_recorded_and_stops_nothing()
    {
        Door door = new();
        door.Take(door.Topics.Acknowledge, $$"""{"client":"tablet","correlation":"c1","expires":"{{door.Expires()}}","trip":"lid-closed"}""");
        Assert.Equal((EventNames.TripSeen, "lid-closed", "tablet"), door.Port.Told.Select(t => (t.Name, t.Subject, t.Client)).Single());
        Assert.Empty(door.Port.Stops);
        Assert.Null(Assert.Single(door.Answers).Reason);
    }

    [Fact]
    public void An_acknowledgement_of_a_trip_that_is_not_active_is_refused_with_a_receipt()
    {
        Door door = new();
        door.Take(door.Topics.Acknowledge, $$"""{"client":"tablet","correlation":"c1","expires":"{{door.Expires()}}","trip":"over-speed"}""");
        Assert.NotNull(Assert.Single(door.Answers).Reason);
        Assert.DoesNotContain(door.Port.Told, t => t.Name == EventNames.TripSeen);
    }

    [Fact]
    [Trait("Requirement", "SAF-073")]
    public void A_retained_command_is_refused_and_recorded()
    {
        Door door = new();
        door.Take(door.Topics.Stop, door.Stop("c1"), retain: true);
        Assert.Empty(door.Port.Stops);
        Assert.Equal((EventNames.NetworkRefusal, "stop"), door.Port.Told.Select(t => (t.Name, t.Subject)).Single());
    }

    [Theory]
    [Trait("Requirement", "SAF-073")]
    [InlineData(-0.001)]
    [InlineData(0)]
    [InlineData(-3600)]
    [InlineData(60.001)]
    [InlineData(1e9)]
    public void A_command_after_its_time_or_good_for_too_long_is_refused_with_a_receipt(double expiresIn)
    {
        Door door = new();
        door.Take(door.Topics.Stop, door.Stop("c1", expiresIn));
        Assert.Empty(door.Port.Stops);
        Assert.Contains("time is over", Assert.Single(door.Answers).Reason);
        Assert.Equal(1, door.Refusals.Count);
    }

    [Fact]
    [Trait("Requirement", "SAF-073")]
    public void A_command_that_comes_again_acts_once_and_gets_one_receipt()
    {
        Door door = new();
        for (int i = 0; i < 5; i++)
            door.Take(door.Topics.Stop, door.Stop("c1"));
        door.Take(door.Topics.Stop, door.Stop("c2"));
        Assert.Equal(2, door.Port.Stops.Count);
        Assert.Equal(["c1", "c2"], door.Answers.Select(a => a.Command.Correlation));
        Assert.Equal(4, door.Refusals.Count);
    }

    [Fact]
    [Trait("Requirement", "SAF-073")]
    public void A_command_larger_than_any_command_is_refused_unread()
    {
        Door door = new();
        door.Take(door.Topics.Stop, door.Stop("c1") + new string(' ', NetworkCommand.Largest));
        Assert.Empty(door.Port.Stops);
        Assert.Contains("too large", door.Port.Told.Single().Text);
    }

    [Theory]
    [InlineData("")]
    [InlineData("stop")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("""{"client":"tablet"}""")]
    [InlineData("""{"client":"tablet","correlation":"c1"}""")]
    [InlineData("""{"client":"tablet","correlation":"c1","expires":"soon"}""")]
    [InlineData("""{"client":"tablet","correlation":"c1","expires":"2026-03-01 10:00:05"}""")]
    [InlineData("""{"client":"tablet","correlation":"c1","expires":"2026-99-99T10:00:05Z"}""")]
    [InlineData("""{"client":"tablet","correlation":"c1","expires":5}""")]
    [InlineData("""{"client":"Robert'); drop","correlation":"c1","expires":"2026-03-01T10:00:05Z"}""")]
    [InlineData("""{"client":"","correlation":"c1","expires":"2026-03-01T10:00:05Z"}""")]
    [InlineData("""{"client":"tablet","correlation":"a b","expires":"2026-03-01T10:00:05Z"}""")]
    [InlineData("""{"client":"tablet","correlation":["c1"],"expires":"2026-03-01T10:00:05Z"}""")]
    [InlineData("""[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]""")]
    [Trait("Requirement", "SAF-073")]
    public void A_payload_that_is_no_command_is_refused_and_does_nothing(string payload)
    {
        Door door = new();
        door.Take(door.Topics.Stop, payload);
        Assert.Empty(door.Port.Stops);
        Assert.Empty(door.Answers);
        Assert.Equal(1, door.Refusals.Count);
    }

    [Theory]
    [InlineData("2026-03-01T10:00:05Z")]
    [InlineData("2026-03-01T10:00:05.123456Z")]
    [InlineData("2026-03-01T12:00:05+02:00")]
    public void A_time_may_be_written_as_the_standard_allows(string expires)
    {
        Door door = new();
        door.Take(door.Topics.Stop, $$"""{"client":"tablet","correlation":"c1","expires":"{{expires}}","more":"is ignored"}""");
        Assert.Single(door.Port.Stops);
    }

    [Fact]
    public void Without_a_run_a_stop_is_answered_that_there_is_nothing_to_stop()
    {
        Door door = new(hasRun: false);
        door.Take(door.Topics.Stop, door.Stop("c1"));
        Assert.Contains("nothing it could act on", Assert.Single(door.Answers).Reason);
    }

    [Fact]
    public void A_receipt_goes_where_it_was_asked_for_below_the_receipts_and_nowhere_else()
    {
        Door door = new();
        string own = door.Topics.Receipt + "/tablet";
        door.Take(door.Topics.Stop, door.Stop("c1"), answer: own);
        foreach (string elsewhere in new[] { "rigcontrol/1/workshop/other-box/command/stop", door.Topics.Stop, door.Topics.Receipt + "/+", door.Topics.Receipt + "evil", "" })
            door.Take(door.Topics.Stop, door.Stop(Orders.New()), answer: elsewhere);
        Assert.Equal(own, door.Answers[0].Topic);
        Assert.All(door.Answers.Skip(1), a => Assert.Equal(door.Topics.Receipt, a.Topic));
    }

    [Fact]
    [Trait("Requirement", "SAF-071")]
    public void Behind_the_embedded_broker_the_record_says_who_really_sent_it()
    {
        Door door = new(trustsBroker: true);
        door.Take(door.Topics.Stop, door.Stop("c1", client: "anna"), sender: "anna");
        door.Take(door.Topics.Stop, door.Stop("c2", client: "anna"), sender: "intruder");
        Assert.Equal(["anna", "anna, connected as intruder"], door.Port.Stops.Select(s => s.Client));
        Door remote = new();
        remote.Take(remote.Topics.Stop, remote.Stop("c1", client: "anna"), sender: "intruder");
        Assert.Equal("anna", remote.Port.Stops.Single().Client);
    }

    [Fact]
    [Trait("Requirement", "SAF-074")]
    public void Whatever_bytes_come_nothing_happens_but_a_count()
    {
        const int Seed = 20260301;
        TestContext.Current.TestOutputHelper?.WriteLine($"seed {Seed}");
        Random random = new(Seed);
        Door door = new();
        string good = door.Stop("c1");
        string[] topics = [door.Topics.Stop, door.Topics.Acknowledge, door.Topics.Root + "/command/start", door.Topics.Root + "/command/", "x"];
        for (int i = 0; i < 20_000; i++)
            door.Take(topics[random.Next(topics.Length)], Hostile(random, good), retain: random.Next(4) == 0);
        Assert.Equal(20_000, door.Refusals.Count);
        Assert.Empty(door.Port.Stops);
        Assert.Empty(door.Answers);
        Assert.True(door.Port.Told.Count <= Enum.GetValues<RefusalKind>().Length, "a flood leaves a line of each kind");
    }

    // Bytes without sense, or a good command that was cut or given a byte that breaks it.
    private static byte[] Hostile(Random random, string good)
    {
        byte[] bytes = random.Next(3) == 0 ? new byte[random.Next(3000)] : Encoding.UTF8.GetBytes(good);
        if (bytes.Length != good.Length)
            random.NextBytes(bytes);
        else if (random.Next(2) == 0)
            bytes = bytes[..random.Next(bytes.Length - 1)];
        else
            bytes[0] = (byte)random.Next('{');
        return bytes;
    }
}

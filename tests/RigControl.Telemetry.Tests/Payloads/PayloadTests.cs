using System.Text;
using System.Text.Json;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Telemetry.Payloads;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Payloads;

/// <summary>What is published is as the schemas say, and the schemas notice what is not.</summary>
public class PayloadTests
{
    private static readonly Topics Topics = new("workshop", "toy-box");
    private static readonly DateTimeOffset Time = new(2026, 3, 1, 10, 0, 0, TimeSpan.Zero);

    private static RigEvent Event(string subject, params (string Name, object Value)[] data) =>
        new(TimeSpan.FromSeconds(1.0000004), 7, "trip", subject, "a \"quoted\" word\u0001", data.ToDictionary(d => d.Name, d => d.Value));

    public static TheoryData<string, string> EveryPayload => new()
    {
        { "status", Text(StatusPayload.Of("online", 3, Time)) },
        { "birth", Text(BirthPayload.Of(Toy.Header(), TimeSpan.FromMilliseconds(5), 3)) },
        { "state", Text(new StatePayload(RigState.Arming, ArmingPhase.Warning, 1, 0, true, ["lid-closed"], TimeSpan.FromSeconds(1), Time).Of("r1", 3)) },
        { "event", Text(EventPayload.Of(Event("lid", ("a", 1.5), ("b", double.NaN), ("c", 3L), ("d", true), ("e", "text"), ("f", ulong.MaxValue)), Topics, "r1", 1, Time)) },
        { "event", Text(EventPayload.Of(Event(""), Topics, "r1", 1, Time)) },
        { "trip", Text(new TripPayload("lid-closed", "", "the lid opened", 1, null, Time).Of("r1")) },
        { "trip", Text(new TripPayload("lid-closed", "enclosure.lid", "the lid opened", 1, 0.004, Time) { SeenBy = ["tablet"] }.Of("r1")) },
        { "figure", Text(FigurePayload.Of("r1", new RunEnd(RunOutcome.Completed, Time, null), [])) },
        { "figure", Text(FigurePayload.Of("r1", new RunEnd(RunOutcome.SafeStop, Time, "stopped"), Figures())) },
        { "heartbeat", Text(new HeartbeatPayload(0, null, 0, 0, 0).Of(1, Time)) },
        { "heartbeat", Text(new HeartbeatPayload(9, 0.0001, 1, 2, 3).Of(1, Time)) },
        { "receipt", Text(new ReceiptPayload("stop", "c1", "tablet", null, Time).Of()) },
        { "receipt", Text(new ReceiptPayload("acknowledge", "c1", "tablet", "too late", Time).Of()) },
        { "stop", Orders.Stop() },
        { "acknowledge", Orders.Acknowledge("lid-closed") },
    };

    [Theory]
    [MemberData(nameof(EveryPayload))]
    public void Every_payload_is_as_its_schema_says(string schema, string payload) => Assert.True(Schemas.Accepts(schema, payload), payload);

    [Theory]
    [MemberData(nameof(EveryPayload))]
    public void A_payload_that_lacks_what_it_must_have_is_noticed(string schema, string payload)
    {
        string[] optional = ["subject", "tightest"];
        foreach (JsonProperty property in JsonDocument.Parse(payload).RootElement.EnumerateObject().Where(p => !optional.Contains(p.Name)))
        {
            string without = Without(payload, property.Name);
            Assert.False(Schemas.Accepts(schema, without), $"{schema} does without {property.Name}");
        }
    }

    [Fact]
    public void Every_schema_is_used_by_a_payload() =>
        Assert.Equal(Schemas.Names.Order(), EveryPayload.Select(row => row.Data.Item1).Append("data").Distinct().Order());

    [Fact]
    public void A_number_that_is_none_is_never_sent()
    {
        using JsonDocument sent = JsonDocument.Parse(EventPayload.Of(Event("lid", ("value", double.PositiveInfinity)), Topics, "r1", 1, Time));
        Assert.Equal(JsonValueKind.Null, sent.RootElement.GetProperty("data").GetProperty("values").GetProperty("value").ValueKind);
    }

    [Fact]
    public void An_event_without_a_subject_leaves_it_out_as_the_standard_wants() =>
        Assert.False(JsonDocument.Parse(EventPayload.Of(Event(""), Topics, "r1", 1, Time)).RootElement.TryGetProperty("subject", out _));

    [Fact]
    public void The_same_configuration_has_the_same_hash_and_another_has_another()
    {
        RunHeader header = Toy.Header();
        Assert.Equal(BirthPayload.HashOf(header), BirthPayload.HashOf(Toy.Header(run: "another")));
        Assert.NotEqual(BirthPayload.HashOf(header), BirthPayload.HashOf(header with { Article = new DocumentCopy("disc-180", "article: changed") }));
        Assert.NotEqual(BirthPayload.HashOf(header), BirthPayload.HashOf(header with { Plugins = [new PluginIdentity("Toy", "1.0", "01")] }));
    }

    [Theory]
    [InlineData(0.1, 1)]
    [InlineData(0.25, 2)]
    [InlineData(1, 0)]
    [InlineData(0.001, 3)]
    [InlineData(0, -1)]
    [InlineData(1.0 / 3, -1)]
    public void A_reading_is_written_with_the_decimals_of_its_resolution_and_no_fewer(double resolution, int digits) =>
        Assert.Equal(digits, DataPayload.DigitsOf(resolution));

    private static Figure[] Figures() =>
    [
        new("peak-speed", 8912.4, "rpm", 6.1, (8900.2, 8924.6), 1, "highest reading", null),
        new("stored-energy", null, "J", null, null, 0, "from inertia", "the article has no inertia"),
        new("spin-up-time", 1, "s", double.NaN, (double.NegativeInfinity, 2), 1, "threshold", null),
    ];

    private static string Without(string payload, string property)
    {
        System.Text.Json.Nodes.JsonObject changed = System.Text.Json.Nodes.JsonNode.Parse(payload)!.AsObject();
        changed.Remove(property);
        return changed.ToJsonString();
    }

    private static string Text(byte[] payload) => Encoding.UTF8.GetString(payload);
}

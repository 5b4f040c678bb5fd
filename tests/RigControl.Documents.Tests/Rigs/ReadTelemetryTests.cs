using RigControl.Documents.Tests.Support;
using RigControl.Model.Rig;

namespace RigControl.Documents.Tests.Rigs;

/// <summary>Where a rig is published, as a builder writes it.</summary>
public class ReadTelemetryTests
{
    [Fact]
    public void A_rig_without_the_section_is_not_published() => Assert.Null(Read(""));

    [Theory]
    [InlineData("telemetry:")]
    [InlineData("telemetry: {}")]
    public void An_empty_section_is_the_broker_on_this_machine(string section)
    {
        TelemetryDefinition telemetry = Read(section)!;
        Assert.Equal(new TelemetryDefinition(), telemetry);
        Assert.Null(telemetry.Broker);
        Assert.Equal(("local", 1883), (telemetry.Site, telemetry.Port));
    }

    [Fact]
    public void Every_key_arrives_where_it_belongs() => Assert.Equal(
        new TelemetryDefinition { Site = "workshop", Broker = "broker.example", Port = 9883, Tls = true, Authority = "workshop.pem", Pin = Pin, Secrets = "secrets.txt" },
        Read($"telemetry: {{ site: workshop, broker: broker.example, port: 9883, tls: yes, authority: workshop.pem, pin: \"{Pin}\", secrets: secrets.txt }}"));

    [Fact]
    public void The_port_follows_from_whether_the_link_is_encrypted()
    {
        Assert.Equal(8883, Read("telemetry: { broker: broker.example, tls: yes }")!.Port);
        Assert.Equal(1883, Read("telemetry: { broker: broker.example }")!.Port);
    }

    private static string Pin { get; } = string.Join(':', Enumerable.Repeat("0F", 32));

    private static TelemetryDefinition? Read(string section)
    {
        string text = Samples.Rig.Replace("rig: workshop-box\n", $"rig: workshop-box\n{section}\n", StringComparison.Ordinal);
        Assert.True(Schemas.Accepts(DocumentKind.Rig, text), "an editor would underline it");
        var reading = DocumentReader.ReadRig(text, "f", Samples.Kinds);
        Assert.Empty(reading.Problems);
        return reading.Value!.Telemetry;
    }
}
